/** A point on the Earth at sea level. Latitude north positive, longitude east positive, degrees. */
export interface Place {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** The place itself when its coordinates are possible; throws a RangeError that names the bad one. */
export function possiblePlace(place: Place): Place {
  const { latitude_deg, longitude_deg } = place;
  if (!(Math.abs(latitude_deg) <= 90)) {
    throw new RangeError(`A latitude lies from -90 to 90 degrees, not ${latitude_deg}.`);
  }
  if (!(Math.abs(longitude_deg) <= 180)) {
    throw new RangeError(`A longitude lies from -180 to 180 degrees, not ${longitude_deg}.`);
  }
  return place;
}
