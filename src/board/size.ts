/** Whether an input is of a size that a board file may have, before it is looked at closely. */
import { type Fault, jsonPath, say } from '../base/index.ts'

/** The longest list that the schema allows anywhere. */
const MAX_LIST = 20_000
/** No part of a board has a tenth as many fields. */
const MAX_FIELDS = 200
/** About 200,000 pads. */
const MAX_VALUES = 2_000_000

interface Waiting {
  readonly value: object
  readonly step: PropertyKey | undefined
  readonly above: Waiting | undefined
}

/** The first list, object or total that is too large; a value that holds itself is too large as well. */
export function oversizeFault(input: unknown): Fault | undefined {
  let count = 0
  const waiting: Waiting[] = []
  if (isObject(input)) waiting.push({ value: input, step: undefined, above: undefined })
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    const keys = Array.isArray(here.value) ? here.value.length : Object.keys(here.value).length
    const fault = sizeFault(here, keys)
    if (fault !== undefined) return fault
    count += keys
    if (count > MAX_VALUES)
      return {
        path: '$',
        found: say('more than {maxValues} values', { maxValues: MAX_VALUES }),
        expected: say('a board file of a size that boards have'),
      }
    for (const key of Object.keys(here.value)) {
      const value: unknown = Reflect.get(here.value, key)
      if (isObject(value)) waiting.push({ value, step: Array.isArray(here.value) ? Number(key) : key, above: here })
    }
  }
  return undefined
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null

function sizeFault(here: Waiting, keys: number): Fault | undefined {
  const isList = Array.isArray(here.value)
  if (keys <= (isList ? MAX_LIST : MAX_FIELDS)) return undefined
  return isList
    ? {
        path: pathOf(here),
        found: say('{keys} entries', { keys }),
        expected: say('at most {maxList} entries', { maxList: MAX_LIST }),
      }
    : {
        path: pathOf(here),
        found: say('an object with {keys} fields', { keys }),
        expected: say('at most {maxFields} fields', { maxFields: MAX_FIELDS }),
      }
}

function pathOf(waiting: Waiting): string {
  const steps: PropertyKey[] = []
  for (let here: Waiting | undefined = waiting; here?.step !== undefined; here = here.above) steps.unshift(here.step)
  return jsonPath(steps)
}
