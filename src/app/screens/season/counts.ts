// How many there are of something, in words. One text for one and one for many: how a language
// counts, and in which order it says it, is then up to its catalogue.

/** `1 nest`, `3 nests`. */
export function nestsText(n: number): string {
  return n === 1 ? '1 nest' : `${n} nests`;
}

/** `1 nest of earlier seasons`, `3 nests of earlier seasons`. */
export function earlierNestsText(n: number): string {
  return n === 1 ? '1 nest of earlier seasons' : `${n} nests of earlier seasons`;
}

/** `1 boil`, `3 boils`. */
export function boilsText(n: number): string {
  return n === 1 ? '1 boil' : `${n} boils`;
}

/** `1 evening`, `3 evenings`. */
export function eveningsText(n: number): string {
  return n === 1 ? '1 evening' : `${n} evenings`;
}

/** `1 note`, `3 notes`. */
export function notesText(n: number): string {
  return n === 1 ? '1 note' : `${n} notes`;
}

/** `1 inventory`, `3 inventories`. */
export function inventoriesText(n: number): string {
  return n === 1 ? '1 inventory' : `${n} inventories`;
}

/** `1 record`, `3 records`. */
export function recordsText(n: number): string {
  return n === 1 ? '1 record' : `${n} records`;
}

/** `1 season`, `3 seasons`. */
export function seasonsText(n: number): string {
  return n === 1 ? '1 season' : `${n} seasons`;
}

/** `1 earlier season`, `3 earlier seasons`. */
export function earlierSeasonsText(n: number): string {
  return n === 1 ? '1 earlier season' : `${n} earlier seasons`;
}
