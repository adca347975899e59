/** What labels have to do with each other under a learnt map: which fall together, what an unknown one is. */
import { kindOfLabel, type Observations } from './observations.ts'
import type { Occupancy } from './occupancy.ts'
import type { LearntMap } from './learn.ts'

/** Lines whose label does not fit the rest, ascending. */
export function contradictionsOf({ labelOf, labels, lines }: Observations, { ofRow, holds }: Occupancy): number[] {
  const denied = labels.map((label) => (kindOfLabel(label) === 'not' ? labels.indexOf(label.slice(1).trim()) : -1))
  const contradictions: number[] = []
  for (const [row, line] of lines.entries()) {
    const index = labelOf[row] ?? 0
    const place = ofRow[row] ?? -1
    const isNot = kindOfLabel(labels[index] ?? '') === 'not'
    if (isNot ? holds(denied[index] ?? -1, place) : !holds(index, place)) contradictions.push(line)
  }
  return contradictions
}

/**
 * Known labels that hold the same places, in sets of two and more; and for each label of an unknown package the known
 * one that it must be, undefined where none or several could.
 */
export function relationsOf(
  labels: readonly string[],
  { placesOf, packageAt }: Occupancy,
): Pick<LearntMap, 'notToldApart' | 'meaning'> {
  const notToldApart = sameLabels(labels, placesOf).map((same) => same.map((label) => labels[label] ?? ''))
  const meaning = new Map<string, string | undefined>()
  for (const [i, label] of labels.entries()) {
    if (kindOfLabel(label) !== 'unknown-one') continue
    const [known, ...others] = new Set((placesOf[i] ?? []).map((place) => packageAt.get(place)))
    meaning.set(label, known === undefined || others.length > 0 ? undefined : labels[known])
  }
  return { notToldApart: notToldApart.filter((same) => same.length > 1), meaning }
}

/** Known labels by the places they hold: each list holds the same ones. */
export function sameLabels(labels: readonly string[], placesOf: Occupancy['placesOf']): number[][] {
  const byPlaces = new Map<string, number[]>()
  for (const [i, label] of labels.entries()) {
    if (kindOfLabel(label) !== 'known') continue
    const key = (placesOf[i] ?? []).toSorted((a, b) => a - b).join(' ')
    byPlaces.set(key, [...(byPlaces.get(key) ?? []), i])
  }
  return [...byPlaces.values()]
}
