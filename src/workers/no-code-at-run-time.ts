/**
 * Imported before all else: the page's policy lets no code be made at run time, and even the schema library's look whether it
 * could be made counts as a breach of it. Page and worker begin with it.
 */
Object.assign(globalThis, { __zod_globalConfig: { jitless: true } })
