// Copies what the microphone gives and passes it on, some 40 ms at a time. It calculates nothing: an
// audio callback must be back in time.
/* global AudioWorkletProcessor, registerProcessor */
(function () {
  var pieceLength = 2048;

  class CopyFrames extends AudioWorkletProcessor {
    constructor() {
      super();
      this.piece = new Float32Array(pieceLength);
      this.filled = 0;
    }

    process(inputs) {
      var channels = inputs[0];
      var first = channels && channels[0];
      if (!first) return true;
      for (var frame = 0; frame < first.length; frame++) {
        var sum = 0;
        for (var channel = 0; channel < channels.length; channel++) sum += channels[channel][frame];
        this.piece[this.filled++] = sum / channels.length;
        if (this.filled < pieceLength) continue;
        this.port.postMessage(this.piece, [this.piece.buffer]);
        this.piece = new Float32Array(pieceLength);
        this.filled = 0;
      }
      return true;
    }
  }

  registerProcessor('copy-frames', CopyFrames);
})();
