/**
 * Samples a second at which everything is analysed, whatever the microphone gives. Half of it is the
 * highest pitch looked at: many telephones and recordings hold nothing above.
 */
export const analysisRate_hz = 16_000;

/** Samples of one short frame, and from one frame to the next. */
export const frameSize = 256;
export const frameHop = 128;
/** Seconds from one short frame to the next. */
export const frameStep_s = frameHop / analysisRate_hz;
/** Short frames in a second. */
export const framesPerSecond = analysisRate_hz / frameHop;
