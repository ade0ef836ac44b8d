/** What the Battery Status API gives (W3C); only some browsers have it. */
interface BatteryDevice {
  getBattery?: () => Promise<{ readonly level: number; readonly charging: boolean }>;
}

/** How full the battery is, 0 to 1; null where the browser does not say. Never fails. */
export async function batteryLevel(device: BatteryDevice = thisDevice()): Promise<number | null> {
  try {
    const level = (await device.getBattery?.())?.level;
    return typeof level === 'number' && level >= 0 && level <= 1 ? level : null;
  } catch {
    return null;
  }
}

function thisDevice(): BatteryDevice {
  return typeof navigator === 'undefined' ? {} : (navigator as Navigator & BatteryDevice);
}
