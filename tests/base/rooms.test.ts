import { expect, test } from 'vitest'
import { brokenRoomRules, sourceFilesBelow } from '../support/rooms.ts'

test('no file imports against the direction of the rooms', () => {
  const files = sourceFilesBelow('src')
  expect(files.length).toBeGreaterThan(10)
  expect(brokenRoomRules(files)).toEqual([])
})

test.each([
  [
    'board/a.ts',
    "import { x } from '../report/index.ts'",
    'board/a.ts imports from report, which is not to the left of board',
  ],
  [
    'report/a.ts',
    "import type { X } from '../board/schema.ts'",
    'report/a.ts imports board/schema.ts past the face of board',
  ],
  [
    'spill/deep/a.ts',
    "import React from 'react'",
    'spill/deep/a.ts imports react: a pure room knows no screen and no machine',
  ],
  [
    'base/a.ts',
    "import { readFileSync } from 'node:fs'",
    'base/a.ts imports node:fs: a pure room knows no screen and no machine',
  ],
  ['case/a.ts', "export * from '../view/App.tsx'", 'case/a.ts imports from view, which is not to the left of case'],
  [
    'cli/a.ts',
    "const x = await import('../view/App.tsx')",
    'cli/a.ts imports from view, which is not to the left of cli',
  ],
  [
    'board/a.ts',
    "import {\n  x,\n  y,\n} from '../suspects/index.ts'",
    'board/a.ts imports from suspects, which is not to the left of board',
  ],
  [
    'report/text/a.ts',
    "import { x } from '../guess/b.ts'",
    'report/text/a.ts imports from guess, which is not before text',
  ],
])('a planted import in %s is caught: %s', (path, text, sentence) => {
  expect(brokenRoomRules([{ path, text }])).toEqual([sentence])
})

test('imports to the left through the face pass', () => {
  const text = "import { good } from '../base/index.ts'\nimport { other } from './other.ts'\nimport { z } from 'zod'"
  expect(brokenRoomRules([{ path: 'board/a.ts', text }])).toEqual([])
})
