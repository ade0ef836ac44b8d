/**
 * Names this version of the app, code and all: the address of the file this stands in, whose name is
 * made from what is in it. Null while it is being developed, when files keep their names.
 */
export const thisBuild: string | null = import.meta.env.PROD ? import.meta.url : null;
