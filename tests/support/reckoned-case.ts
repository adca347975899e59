/** A case of the demo data or of the fixtures, changed in some fields, opened and reckoned: each once for all files that one process runs. */
import { readFileSync } from 'node:fs'
import { good } from '../../src/base/index.ts'
import {
  enteredOf,
  type ExposureShelf,
  loadCase,
  type NextSteps,
  openCase,
  planCase,
  reworkQuestion,
} from '../../src/case/index.ts'
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

const known = new Map<string, Promise<Reckoned>>()

/** @param change fields of the case that are another than in its file */
export function reckoned(path: string, change: object = {}): Promise<Reckoned> {
  const key = JSON.stringify([path, change])
  const before = known.get(key) ?? reckon(path, change)
  known.set(key, before)
  return before
}

const asked = new WeakMap<Reckoned, NextSteps>()

/** What is proposed for it, and what to look at next. */
export function nextOf(card: Reckoned): NextSteps {
  const next = asked.get(card) ?? card.assessor.nextSteps(card.entered)
  asked.set(card, next)
  return next
}

/** By board: what heating its parts comes to does not depend on the case, and a plan takes it over where it is known. */
const shelves = new Map<string, ExposureShelf>()

/** The plan of its lift list with the usual equipment. */
export function plannedOf({ model, caseFile, suspects }: Reckoned) {
  const key = JSON.stringify(model.description)
  const shelf: ExposureShelf = shelves.get(key) ?? new Map()
  shelves.set(key, shelf)
  return planCase(model, reworkQuestion(caseFile, suspects), {}, shelf)
}
