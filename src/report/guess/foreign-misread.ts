/** Rows in which a foreign name stands that was told to mean something, and that are read as something else. */
import { say } from '../../base/index.ts'
import type { BoardModel } from '../../board/index.ts'
import { plainLabel, type Place } from '../names/labels.ts'
import type { NameBook } from '../names/names.ts'
import { tokensOf } from '../text/tokens.ts'
import type { Trial } from './trial.ts'
import { type ForeignNames, lanesOfMeaning, type Meaning } from '../names/foreign/meaning.ts'

const MAX_ROWS = 500

/** A sentence about the first such row; undefined where there is none. */
export function misreadName(
  { rows, plan }: Trial,
  model: BoardModel,
  book: NameBook,
  names: ForeignNames,
): string | undefined {
  if (plan.level !== 'labels') return undefined
  const meant = new Map(Object.entries(names).map(([name, meaning]) => [plainLabel(name), { name, meaning }]))
  for (const { text, line, place } of rows.slice(0, MAX_ROWS)) {
    const told = namesOf(text, book, meant)
    if (told.length === 0 || (place !== undefined && told.some(({ meaning }) => liesIn(place, meaning, model))))
      continue
    return say('line {line} has {name}, and is read as something else', { line, name: told[0]?.name })
  }
  return undefined
}

function namesOf(
  text: string,
  book: NameBook,
  meant: ReadonlyMap<string, { readonly name: string; readonly meaning: Meaning }>,
): { readonly name: string; readonly meaning: Meaning }[] {
  const tokens = tokensOf(text)
  return tokens.flatMap((token, i) => {
    const hit = book.at(tokens, i)
    const last = tokens[(hit?.to ?? 0) - 1]
    const known =
      hit === undefined || last === undefined ? undefined : meant.get(plainLabel(text.slice(token.from, last.to)))
    return known === undefined ? [] : [known]
  })
}

function liesIn({ kind, index, lanes }: Place, meaning: Meaning, model: BoardModel): boolean {
  const id =
    kind === 'part'
      ? model.memories[index]?.ref
      : kind === 'channel'
        ? model.channels[index]?.id
        : model.lanes[index]?.id
  const own = lanes === undefined ? lanesOfMeaning(model, id ?? '') : lanes.map((lane) => model.lanes[lane]?.id ?? '')
  const covered = lanesOfMeaning(model, meaning)
  return own.every((lane) => covered.includes(lane))
}
