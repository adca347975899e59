/** The measuring sheet: every rail with the points of its stages, one field each, filled by keyboard, voice, pedal or meter. */
import { someOf, say } from '../../../base/index.ts'
import {
  isAsked,
  lineKey,
  lineName,
  type LineVerdict,
  type Phase,
  type Quantity,
  type StagePoint,
  stagePointWords,
  type Verdict,
} from '../../../measure/index.ts'
import { Opening } from '../../controls/pieces.tsx'
import styles from '../../controls/panel.module.css'
import { useBoard, usePresent } from '../../stores/hooks.ts'
import { verdictsOf } from '../../stores/measuring.ts'
import { LineRow } from './LineRow.tsx'
import { SelfOpening } from './SelfOpening.tsx'
import { Supplies } from './Supplies.tsx'
import own from './measuring.module.css'

interface MeasuringSheetProps {
  readonly quantity: Quantity
  readonly phase: Phase
}

export function MeasuringSheet({ quantity, phase }: MeasuringSheetProps) {
  const board = useBoard()
  const present = usePresent()
  if (board === undefined || present === undefined) return undefined
  const verdicts = verdictsOf(board.model, present, quantity, phase)
  const beside = quantity === 'ohms' ? verdictsOf(board.model, present, 'diode', phase) : []
  const diode = new Map(beside.map((each) => [lineKey(each.line.line), each]))
  if (verdicts.length === 0) {
    return <p className={styles.quiet}>{say('The board’s description names no rail and no power stage to measure.')}</p>
  }
  const asked = verdicts.filter(({ line }) => isAsked(line))
  const measured = asked.filter(({ measurement }) => measurement !== undefined).length
  return (
    <section className={styles.section} aria-label={quantity === 'ohms' ? say('Ohms to ground') : say('Volts')}>
      <Opening
        summary={say('{measured} of {length, plural, one {# line} other {# lines}} measured; how to type', {
          measured,
          length: asked.length,
        })}
      >
        <p className={styles.quiet}>
          {say('Enter goes on, Shift+Enter back. Type')}{' '}
          {quantity === 'ohms' ? say('0.38, 380m, 2k2, OL or short') : say('12.1, 870 mV or 3V3')}.
          {quantity === 'ohms' && say(' In diode mode red goes on ground: 545, 0.545 V or OL.')}
        </p>
      </Opening>
      {quantity === 'ohms' && (
        <div className={own.heads} aria-hidden="true">
          <span>{say('Ω to ground')}</span>
          <span>{say('mV, red on ground')}</span>
        </div>
      )}
      {groupsOf(verdicts).map(({ rail, lines }) => (
        <Group key={`${phase} ${rail ?? ''}`} rail={rail} lines={lines} diode={diode} phase={phase} />
      ))}
    </section>
  )
}

interface RowsProps {
  readonly lines: readonly LineVerdict[]
  /** The same lines in diode mode, as far as they are read so, by their keys. */
  readonly diode: ReadonlyMap<string, LineVerdict>
  readonly phase: Phase
}

/** A stage without siblings has all its points in one fold; of others the points that nothing asks for have one together. */
function Group({ rail, ...rows }: RowsProps & { readonly rail: string | undefined }) {
  const rails = rows.lines.filter(({ line }) => line.line.kind === 'rail')
  const supplies = rows.lines.filter(({ line }) => line.line.kind === 'supply')
  const stages = rows.lines.filter(({ line }) => line.line.kind === 'stage')
  const alone = new Set(stages.map(({ line }) => line.line.name)).size === 1
  const asked = pointsOf(stages).filter(([, lines]) => lines.some(({ line }) => isAsked(line)))
  const others = pointsOf(stages).filter(([, lines]) => !lines.some(({ line }) => isAsked(line)))
  const ofOthers = others.flatMap(([, lines]) => lines)
  return (
    <section
      className={own.group}
      aria-label={rail === undefined ? say('Stages of no rail') : say('Rail {rail}', { rail })}
    >
      <Rows {...rows} lines={rails} />
      {rail !== undefined && rails.some(({ line }) => line.use === 'input') && (
        <SelfOpening summary={suppliesSummary(supplies)} {...stateOf(supplies)}>
          {supplies.length > 0 && <Rows {...rows} lines={supplies} byPoint />}
          <Supplies rail={rail} />
        </SelfOpening>
      )}
      {alone ? (
        <SelfOpening
          summary={summaryOf(
            say('Points of {name}', { name: stages[0]?.line.line.name ?? say('its stage') }),
            stages,
            'point',
          )}
          {...stateOf(stages)}
        >
          <Rows {...rows} lines={stages} byPoint />
        </SelfOpening>
      ) : (
        <>
          <Points {...rows} points={asked} />
          {others.length > 0 && (
            <SelfOpening
              summary={summaryOf(
                asked.length > 0 ? say('Other stage points') : say('Stage points'),
                ofOthers,
                'reading',
              )}
              {...stateOf(ofOthers)}
            >
              <div className={own.inside}>
                <Points {...rows} points={others} />
              </div>
            </SelfOpening>
          )}
        </>
      )}
    </section>
  )
}

type PointsProps = Omit<RowsProps, 'lines'> & { readonly points: readonly [StagePoint, LineVerdict[]][] }

const Points = ({ points, ...rows }: PointsProps) =>
  points.map(([point, lines]) => (
    <SelfOpening key={point} summary={summaryOf(stagePointWords(point), lines, 'stage')} {...stateOf(lines)}>
      <Rows {...rows} lines={lines} />
    </SelfOpening>
  ))

function Rows({ lines, diode, phase, byPoint = false }: RowsProps & { readonly byPoint?: boolean }) {
  return (
    <ol className={own.lines}>
      {lines.map((entry) => (
        <LineRow
          key={lineKey(entry.line.line)}
          entry={entry}
          diode={diode.get(lineKey(entry.line.line))}
          phase={phase}
          byPoint={byPoint}
        />
      ))}
    </ol>
  )
}

/** The same point of all stages together, as it is read at the bench: one pad after the other, held against each other. */
function pointsOf(lines: readonly LineVerdict[]): [StagePoint, LineVerdict[]][] {
  const points = new Map<StagePoint, LineVerdict[]>()
  for (const each of lines) {
    const { point } = each.line.line
    if (point !== undefined) points.set(point, [...(points.get(point) ?? []), each])
  }
  return [...points]
}

const asksForALook = ({ tone }: Verdict): boolean => tone === 'bad' || tone === 'doubt'

const suppliesSummary = (supplies: readonly LineVerdict[]): string =>
  supplies.length === 0 ? say('Supplies: none named yet') : summaryOf(say('Supplies'), supplies, 'supply')

/** What a fold is in: whether a reading in it stands out, and whether one that is asked for is missing. */
const stateOf = (lines: readonly LineVerdict[]): { readonly asks: boolean; readonly due: boolean } => ({
  asks: lines.some(({ verdict }) => asksForALook(verdict)),
  due: lines.some(({ line, measurement }) => isAsked(line) && measurement === undefined),
})

function summaryOf(
  words: string,
  lines: readonly LineVerdict[],
  each: 'stage' | 'point' | 'reading' | 'supply',
): string {
  const read = lines.filter(({ measurement }) => measurement !== undefined).length
  const off = lines.filter(({ verdict }) => asksForALook(verdict)).map(({ line: { line } }) => line)
  const names = off.map((line) =>
    line.point === undefined || each !== 'point' ? lineName(line) : stagePointWords(line.point),
  )
  const what = `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`
  const all =
    each === 'stage'
      ? say('{length, plural, one {# stage} other {# stages}}', { length: lines.length })
      : each === 'point'
        ? say('{length, plural, one {# point} other {# points}}', { length: lines.length })
        : String(lines.length)
  if (off.length === 0 && read === lines.length)
    return say('{what}: {all} read, {lines}', { what, all, lines: alikeWords(lines) })
  if (off.length === 0) return say('{what}: {read} of {all} read', { what, read, all })
  const found = someOf([...new Set(names)], 4)
  return each === 'supply'
    ? say('{what}: {read} of {all} read; off: {found}', { what, read, all, found })
    : say('{what}: {read} of {all} read; look at {found}', { what, read, all, found })
}

function alikeWords(lines: readonly LineVerdict[]): string {
  if (lines.every(({ verdict }) => verdict.kind === 'alike')) return say('all alike')
  return lines.every(({ verdict }) => verdict.kind === 'in-range') ? say('all in range') : say('none stands out')
}

function groupsOf(verdicts: readonly LineVerdict[]): { rail: string | undefined; lines: LineVerdict[] }[] {
  const groups = new Map<string | undefined, LineVerdict[]>()
  for (const verdict of verdicts) {
    const known = groups.get(verdict.line.rail)
    if (known === undefined) groups.set(verdict.line.rail, [verdict])
    else known.push(verdict)
  }
  return [...groups].map(([rail, lines]) => ({ rail, lines }))
}
