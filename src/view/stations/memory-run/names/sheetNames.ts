/** Names of a report as they stand on the sheet in place of refs and lane names. */
import type { BoardModel } from '../../../../board/index.ts'
import { type ForeignNames, lanesOfMeaning } from '../../../../report/index.ts'
import type { SheetNames } from '../../../sheet/index.ts'

/** @param proposed shown with a question mark: nobody has said so yet */
export function sheetNamesOf(model: BoardModel, told: ForeignNames, proposed: ForeignNames = {}): SheetNames {
  const ofPart = new Map<string, { readonly text: string; readonly lanes: readonly string[] }[]>()
  const add = (name: string, text: string, names: ForeignNames): void => {
    const lanes = lanesOfMeaning(model, names[name] ?? '')
    for (const ref of new Set(lanes.map((id) => model.laneById.get(id)?.part ?? ''))) {
      const own = lanes.filter((id) => model.laneById.get(id)?.part === ref)
      ofPart.set(ref, [...(ofPart.get(ref) ?? []), { text, lanes: own }])
    }
  }
  for (const name of Object.keys(told)) add(name, name, told)
  for (const name of Object.keys(proposed)) if (told[name] === undefined) add(name, `${name}?`, proposed)
  const parts = new Map<string, string>()
  const lanes = new Map<string, string>()
  for (const [ref, names] of ofPart) {
    const stem = stemOf(names.map(({ text }) => text))
    const shown = names.slice(0, MOST_ON_A_PART).map(({ text }) => text)
    parts.set(ref, stem === '' ? `${shown.join(', ')}${names.length > shown.length ? ' …' : ''}` : stem)
    const whole = lanesOfMeaning(model, ref).length
    for (const { text, lanes: own } of names) {
      if (own.length === whole) continue
      const rest = text.slice(stem.replace(/\?$/, '').length).trim()
      for (const id of own) lanes.set(id, rest === '' ? text : rest)
    }
  }
  return { parts, lanes }
}

const MOST_ON_A_PART = 2

/** What names of one package begin with, word by word: `C3` of `C3 low` and `C3 high`; nothing where that tells no number. */
function stemOf(texts: readonly string[]): string {
  const [first = '', ...others] = texts
  if (others.length === 0) return first
  const words = texts.map((text) => text.replace(/\?$/, '').match(/\p{L}+|\d+|[^\p{L}\d]+/gu) ?? [])
  const [own = []] = words
  const differ = own.findIndex((word, i) => words.some((other) => other[i] !== word))
  const stem = (differ < 0 ? own : own.slice(0, differ)).join('').replace(/[^\p{L}\d]+$/u, '')
  if (!/\d/.test(stem)) return ''
  return texts.every((text) => text.endsWith('?')) ? `${stem}?` : stem
}
