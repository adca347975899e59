// Read by the schema library before its first schema is made: the page's policy lets no code be made at run time, and
// even a look whether it could be made counts as a breach of it.
globalThis.__zod_globalConfig = { jitless: true }
