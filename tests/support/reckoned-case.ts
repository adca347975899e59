/** A case of the demo data or of the fixtures, changed in some fields, opened and reckoned: each once a test file. */
import { readFileSync } from 'node:fs'
import { good } from '../../src/base/index.ts'
import { enteredOf, loadCase, openCase } from '../../src/case/index.ts'
import { assessorFor } from './kept-answers.ts'

async function* bytesOf(text: string): AsyncIterable<Uint8Array> {
  yield new TextEncoder().encode(text)
}

/** @param path of the case file from the project's folder; what it names stands relative to it */
async function openChanged(path: string, change: object) {
  const loaded = loadCase({ ...JSON.parse(readFileSync(path, 'utf8')), ...change })
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults))
  const opened = await openCase(loaded.value, (named) =>
    Promise.resolve(good(bytesOf(readFileSync(new URL(named, `file://${process.cwd()}/${path}`), 'utf8')))),
  )
  if (!opened.ok) throw new Error(JSON.stringify(opened.faults))
  return opened.value
}

async function reckon(path: string, change: object) {
  const opened = await openChanged(path, change)
  const assessor = assessorFor(opened.model)
  const entered = enteredOf(opened)
  const assessment = assessor.assess(entered)
  return { ...opened, assessment, suspects: assessment.suspects, entered, assessor }
}

export type Reckoned = Awaited<ReturnType<typeof reckon>>

/** @returns a function of the case's path and what is changed in it */
export function reckonOnce(): (path: string, change?: object) => Promise<Reckoned> {
  const known = new Map<string, Promise<Reckoned>>()
  return (path, change = {}) => {
    const key = JSON.stringify([path, change])
    const before = known.get(key) ?? reckon(path, change)
    known.set(key, before)
    return before
  }
}
