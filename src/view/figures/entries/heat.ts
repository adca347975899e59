/** Figures of a heating: what the tools are set to, how hot joints, bodies and neighbours get. */
import { decimals, numberWords, plainly, say } from '../../../base/index.ts'
import { alloyOf, heatAssumptions, type HeatRun, type HeatSetting } from '../../../heat/index.ts'
import { type EntriesOf, given } from '../entry.ts'
import type { FigureInput } from '../figure.ts'
import type { Known } from '../known.ts'

const HEAT_FLOW = say(
  'Heat flow through the board, layer by layer lumped to a sheet, stepped in time with the air and plate of the setting.',
)
const HEAT_SOURCE = say(
  'J-STD-020 (limits of bodies); J. Douglas, Alternating direction methods for three space variables (1962). Films of air and plate: from memory.',
)
const THERMOCOUPLE = say('The thermocouple at the joint counts, not the model.')

export const heatEntries: EntriesOf<
  'setting' | 'cracks' | 'joint-peak' | 'body-peak' | 'neighbour-peak' | 'energy-balance'
> = {
  setting: {
    title: say('Temperatures and settings'),
    subject: ({ n }) => say('step {n}', { n }),
    at: ['plan'],
    formula: say(
      '{HEATFLOW} The setting melts every joint of the part and keeps its neighbours coolest. Air and plate are what the tools show, not what the joints reach.',
      { HEATFLOW: HEAT_FLOW },
    ),
    from: [say('Board, copper, parts'), say('Nozzle, air, preheater')],
    source: HEAT_SOURCE,
    limit: THERMOCOUPLE,
    inputs: ({ n }, known) => {
      const setting = settingOf(known, n)
      return setting === undefined ? [] : [...boardInputs(known), ...settingInputs(setting)]
    },
  },
  'joint-peak': {
    title: say('Peak of the joints'),
    subject: ({ ref }) => ref,
    at: ['plan'],
    formula: say('{HEATFLOW} Peak of the coldest and of the hottest joint under the body.', { HEATFLOW: HEAT_FLOW }),
    from: [say('Board, copper, parts'), say('The setting'), say('Alloy of the joints')],
    source: HEAT_SOURCE,
    limit: THERMOCOUPLE,
    inputs: ({ ref, n }, known) => [...alloyInputs(known, ref), ...runInputs(known, ref), ...ofSetting(known, n)],
  },
  'body-peak': {
    title: say('Peak of the body'),
    subject: ({ ref }) => ref,
    at: ['plan'],
    formula: say(
      'The body as one lump: heat from the air on its top and through its joints. Its limit: the board’s own, else by thickness and volume of the body.',
    ),
    from: [say('The setting'), say('Size of the body'), say('Limit of the body')],
    source: say('J-STD-020, table of classification temperatures.'),
    limit: THERMOCOUPLE,
    inputs: ({ ref }, known) => [...sizeInputs(known, ref), ...runInputs(known, ref)],
  },
  'neighbour-peak': {
    title: say('How hot a neighbour gets'),
    subject: ({ ref }) => ref,
    at: ['plan'],
    formula: say('{HEATFLOW} Its hottest joint is held against its alloy, its body against its limit.', {
      HEATFLOW: HEAT_FLOW,
    }),
    from: [say('Board, copper, parts'), say('The setting'), say('Alloy of the joints')],
    source: HEAT_SOURCE,
    limit: THERMOCOUPLE,
    inputs: ({ ref, n }, known) => [...alloyInputs(known, ref), ...stepInputs(known, ref, n), ...ofSetting(known, n)],
  },
  cracks: {
    title: say('From where joints crack'),
    at: ['plan'],
    formula: say(
      'A package that stays on beside a site is held against these two temperatures: joints were found cracked from there on, well below melting.',
    ),
    from: [say('Peak of its joints')],
    source: say(
      'M. Ismail and others, Effect of heat shield locations on rework-induced thermal management in ball grid array solder joint (2022).',
    ),
    limit: say('Measured on other packages than these; how many crack is not known.'),
    inputs: (_, { answer }) => {
      const exposed = answer?.best.steps.flatMap((step) => step.exposed) ?? []
      return given(
        say('hottest neighbour'),
        exposed.length === 0 ? undefined : degrees(Math.max(...exposed.map(({ jointPeakC }) => jointPeakC))),
      )
    },
  },
  'energy-balance': {
    title: say('Energy balance'),
    at: ['plan'],
    formula: say('|in − lost − stored| over in: what the steps of the computation lose or make.'),
    from: [say('Energy in, lost and stored')],
    source: say('First law of thermodynamics, from memory; kept as a check of the computation.'),
    limit: say('A closed balance does not show that copper and films are as assumed.'),
    inputs: (_, { look }) => {
      const energy = look?.run?.energy
      if (energy === undefined) return []
      const kilojoules = (joules: number): string => `${decimals(joules / 1000, 1)} kJ`
      return [
        { name: say('in'), value: kilojoules(energy.inJ) },
        { name: say('lost'), value: kilojoules(energy.lostJ) },
        { name: say('still in the board'), value: kilojoules(energy.storedJ) },
      ]
    },
  },
}

const degrees = (valueC: number): string => `${Math.round(valueC)}\u00a0°C`

/** Of the step that is looked at, else of the plan's. */
const settingOf = ({ look, answer }: Known, n: number): HeatSetting | undefined =>
  look?.n === n ? look.setting : answer?.best.steps.find((step) => step.n === n)?.setting

const ofSetting = (known: Known, n: number): FigureInput[] => {
  const setting = settingOf(known, n)
  return setting === undefined ? [] : settingInputs(setting)
}

const settingInputs = ({ preheatC, preheatS, airC, airS, nozzle }: HeatSetting): FigureInput[] => [
  {
    name: say('plate'),
    value:
      preheatS > 0
        ? say('{preheatC}, {seconds} s ahead', { preheatC: degrees(preheatC), seconds: Math.round(preheatS) })
        : say('none'),
  },
  { name: say('air'), value: say('{airC} for {seconds} s', { airC: degrees(airC), seconds: Math.round(airS) }) },
  {
    name: say('nozzle'),
    value: say('{shape, select, round {round} other {square}}, {sizeMm} mm', {
      shape: nozzle.shape,
      sizeMm: numberWords(Math.round(nozzle.sizeMm * 10) / 10),
    }),
  },
]

const boardInputs = ({ model }: Known): FigureInput[] => [
  {
    name: say('board'),
    value: `${decimals(model.box.maxX - model.box.minX, 0)} × ${decimals(model.box.maxY - model.box.minY, 0)} mm`,
  },
]

function alloyInputs({ model }: Known, ref: string): FigureInput[] {
  const part = model.partByRef.get(ref)
  if (part === undefined) return []
  const alloy = alloyOf(part.description)
  return [
    {
      name: say('joints'),
      value: say('{alloy}, molten from {liquidusC}', {
        alloy,
        liquidusC: degrees(heatAssumptions.alloys[alloy].liquidusC),
      }),
    },
  ]
}

const sizeInputs = ({ model }: Known, ref: string): FigureInput[] => {
  const part = model.partByRef.get(ref)
  return given(say('body'), part === undefined ? undefined : `${plainly(part.widthMm)} × ${plainly(part.lengthMm)} mm`)
}

const heatOf = (run: HeatRun | undefined, ref: string) => run?.parts.find((part) => part.ref === ref)

function runInputs({ look }: Known, ref: string): FigureInput[] {
  const heat = heatOf(look?.run, ref)
  if (heat === undefined) return []
  return [
    { name: say('coldest joint'), value: degrees(heat.coldestJointPeakC ?? heat.jointPeakC) },
    { name: say('hottest joint'), value: degrees(heat.jointPeakC) },
    { name: say('molten for'), value: `${Math.round(heat.coldestAboveLiquidusS ?? heat.aboveLiquidusS)} s` },
    { name: say('body, limit'), value: `${degrees(heat.bodyPeakC)}, ${degrees(heat.bodyLimitC)}` },
  ]
}

function stepInputs(known: Known, ref: string, n: number): FigureInput[] {
  const { look, answer } = known
  if (look?.n === n && look.run !== undefined) return runInputs(known, ref)
  const exposed = answer?.best.steps.find((step) => step.n === n)?.exposed.find((part) => part.ref === ref)
  return given(say('hottest joint'), exposed === undefined ? undefined : degrees(exposed.jointPeakC))
}
