/**
 * Cautions of each kind of step, where the hazard is met. They defer to local rules and qualified people. Common practice, no
 * source, unless a sentence names one.
 */
import { joined, say } from '../../base/index.ts'
import type { PlacedPart } from '../../board/index.ts'
import { cautionsFor, type Substance } from '../../spill/index.ts'
import { isBonded } from '../../suspects/index.ts'
import type { StepAction } from '../result.ts'

const LOCAL = say('Follow your local rules; where you are not qualified for this, ask somebody who is.')
const HOT = say(
  'Air, nozzle and board burn skin for minutes after the heat is off, and the air flow starts fires: eye protection, nothing that burns within half a metre.',
)
const FUMES = say('Flux fumes cause asthma: extract them at the source; a dust mask does not help.')
const LEAD = say('These joints hold lead: wash your hands, do not eat at the bench, wipe dust wet.')
const MAYBE_LEAD = say('Old or repaired joints may hold lead: wash your hands, do not eat at the bench.')
const SOLVENT = say(
  'Solvent vapour catches fire (isopropyl alcohol from 12 °C up): let the board cool until it is hand-warm, keep hot tools off, air the room, and let it dry fully before heat or power.',
)
const STATIC = say('Static kills parts without a mark: earthed bench and wrist strap.')
const BOND = say('Soften and part the bond all around first: a bonded part that is pulled tears pads out of the board.')
const GLUE_FUMES = say(
  'Hot glue gives off vapour that makes skin and airways allergic: extract it at the source, and wear gloves.',
)
const BLADE = say(
  'Thin blades and picks slip: cut away from your hand, flat to the mask, eyes covered; tracks and small parts lie beside the rim.',
)
const WET = say('Liquid trapped under a part boils and bursts joints: dry before heat.')
const OVEN = say(
  'An oven with flux or coolant residue in it is not for food, and glycol vapour is harmful: extract it.',
)
const AIR_OFF = say(
  'Solvent vapour in a closed oven can explode: let the board air off until nothing smells, and leave the oven’s vent open.',
)
const bareStacks = (stacks: readonly string[]): string =>
  say(
    '{stacks} {count, plural, one {stands} other {stand}} bare beside the die and {count, plural, one {chips} other {chip}} at a touch: nudge and hold the core by its substrate.',
    { stacks: joined(stacks), count: stacks.length },
  )
const UNPLUGGED = say('Unplug the card and see that its capacitors are discharged.')
const FIRST_POWER = say(
  'First power from a supply with its limit set low, a hand at the switch: what gets hot or smells comes off power at once.',
)
const POWER_FIRST = say(
  'Wet boards corrode and short under power: nothing gets power before it is dry and every rail was measured cold.',
)
const POWER = say('Measure cold before power: a bridge under a refitted part shorts its rail.')

const BY_ACTION: Record<StepAction, readonly string[]> = {
  'take-up': [UNPLUGGED, SOLVENT, STATIC],
  wash: [UNPLUGGED, SOLVENT, STATIC],
  dry: [AIR_OFF, OVEN],
  test: [POWER_FIRST, FIRST_POWER],
  bake: [OVEN],
  prepare: [STATIC, UNPLUGGED],
  unglue: [HOT, GLUE_FUMES, BLADE],
  lift: [HOT, FUMES],
  clean: [HOT, FUMES, SOLVENT],
  reball: [HOT, FUMES, SOLVENT, STATIC],
  replace: [STATIC],
  refit: [HOT, FUMES],
  inspect: [UNPLUGGED, SOLVENT, POWER, FIRST_POWER],
}

const BLINDS = /\bblinds\b|damages eyes/
const blindingFirst = (a: string, b: string): number => Number(BLINDS.test(b)) - Number(BLINDS.test(a))

interface Handled {
  readonly parts: readonly PlacedPart[]
  /** Refs of the memory that comes off and goes on with them. */
  readonly stacks: readonly string[]
  readonly substances: readonly Substance[]
  readonly wet: boolean
}

/**
 * Cautions of one step, each once; the last always defers to local rules. Lead is warned of wherever joints are
 * heated: as a fact where the alloy has it, else as a possibility. `wet` says that something wet is still on the
 * board.
 */
export function cautionsOf(action: StepAction, { parts, stacks, substances, wet }: Handled): string[] {
  const handled = substances.flatMap(cautionsFor)
  // by hand the metal and the lye are nearer than the solvent's vapour
  const found =
    action === 'take-up' ? [...handled.toSorted(blindingFirst), ...BY_ACTION[action]] : [...BY_ACTION[action]]
  const hot = action === 'lift' || action === 'refit' || action === 'reball' || action === 'clean'
  if (hot)
    found.push(parts.some(({ description }) => description.jointAlloy?.includes('Pb') === true) ? LEAD : MAYBE_LEAD)
  if (action === 'lift' && parts.some(isBonded)) found.push(BOND)
  if (stacks.length > 0 && (action === 'lift' || action === 'refit' || action === 'reball'))
    found.push(bareStacks(stacks))
  if (wet && (action === 'lift' || action === 'dry')) found.push(WET)
  if (action === 'lift' || action === 'clean' || action === 'wash') found.push(...handled)
  return [...new Set([...found, LOCAL])]
}
