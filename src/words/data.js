/** @typedef {('en'|'es')} Locale */
/** @type {Locale[]} */
export const locales = ['en','es']