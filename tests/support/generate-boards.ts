/** Makes the invented boards and the published JSON Schema: file name to text. The committed files must equal these. */
import { boardJsonSchema, Canvas, cardHoles, cardOutline } from '../../src/board/index.ts'
import { putCapacitors } from './boards/capacitors.ts'
import { cardPlans } from './boards/cards.ts'
import { jsonText } from './boards/json-text.ts'
import { putCoreAndMemory } from './boards/memory.ts'
import type { BoardFile, CardPlan } from './boards/plan.ts'
import { putPower } from './boards/power.ts'
import { railsOf } from './boards/rails.ts'
import { putSmallParts } from './boards/small-parts.ts'
import { COPPER } from './boards/copper.ts'
import { stackedCard } from './boards/stacked-card.ts'

export function generatedBoards(): ReadonlyMap<string, string> {
  const files = cardPlans.map((plan): [string, string] => [`boards/${plan.name}.json`, jsonText(boardOf(plan))])
  const stacked = stackedCard()
  return new Map([
    ...files,
    [`boards/${stacked.name}.json`, jsonText(stacked)],
    ['boards/schema.json', jsonText(boardJsonSchema())],
  ])
}

function boardOf(plan: CardPlan): BoardFile {
  const outline = cardOutline(plan)
  const holes = cardHoles(plan)
  const canvas = new Canvas(outline, holes)
  const memory = putCoreAndMemory(canvas, plan)
  const power = putPower(canvas, plan)
  const capacitors = putCapacitors(canvas, plan, power)
  putSmallParts(canvas, plan)
  const ids = memory.channels.map((channel) => channel.id)
  return {
    $schema: './schema.json',
    format: 'liftmap-board',
    version: 1,
    name: plan.name,
    note: plan.note,
    outline,
    holes,
    thicknessMm: 1.6,
    copper: COPPER,
    parts: canvas.parts,
    rails: railsOf(canvas, plan, memory, power, capacitors),
    memory: { channels: memory.channels },
    addressMap: plan.addressMap(ids),
  }
}
