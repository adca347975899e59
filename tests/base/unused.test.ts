/** Nothing lies about unused: no file, no export, no dependency, by a tool that follows all imports. */
import { execFileSync } from 'node:child_process'
import { expect, test } from 'vitest'

test('every file, export and dependency is used somewhere', () => {
  const found = ((): string => {
    try {
      return execFileSync(process.execPath, ['node_modules/knip/bin/knip.js', '--no-progress'], { encoding: 'utf8' })
    } catch (error) {
      return error instanceof Error && 'stdout' in error ? String(error.stdout) : String(error)
    }
  })()
  expect(found.trim()).toBe('')
}, 60_000)
