/** The tests of one room, for the mutation tool: `LIFTMAP_ROOM` names it. House tests look at files, not at what they do. */
import { defineConfig } from 'vitest/config'

const room = process.env['LIFTMAP_ROOM'] ?? 'base'

export default defineConfig({
  test: {
    root: '.',
    environment: 'node',
    // files share what they import, or each change would load every core once for each file
    isolate: false,
    setupFiles: ['tests/support/seed.ts'],
    // a room whose tests are many keeps some in a folder beside: tests/rehearsal-shop
    include: [`tests/${room}{,-*}/**/*.test.ts`],
    exclude: ['tests/base/{rooms,docstrings,unions,unused,said}.test.ts', 'node_modules/**'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
