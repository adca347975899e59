/** The lift list: which parts to take off, how likely each needs it, and the reasons; then what to leave, and the cost. */
import { joined, say } from '../../../base/index.ts'
import { type ReactNode, useId, useState } from 'react'
import type { SuspectsResult, PartSuspicion } from '../../../suspects/index.ts'
import { showOnSheet } from '../../actions/show.ts'
import { LinkButton } from '../../controls/Button.tsx'
import { Bar, Opening } from '../../controls/pieces.tsx'
import { Figured, FiguredText, Reasons, WashMayDo } from '../../figures/index.ts'
import { useBoard, useDesk, useReadings, useResults, useTally } from '../../stores/hooks.ts'
import { useRoughMoney } from '../../stores/money.ts'
import { percent, spacedKind } from '../../stores/words.ts'
import { FaultRow } from '../../controls/FileMessages.tsx'
import files from '../../controls/files.module.css'
import { UntestedLanes } from '../memory-run/UntestedLanes.tsx'
import { WaitingReports } from '../memory-run/WaitingReports.tsx'
import styles from '../../controls/panel.module.css'

interface LiftListProps {
  /** Under another station's form: the reasons are one sentence each. */
  readonly short?: boolean
  /** Stands between the heading and the list. */
  readonly children?: ReactNode
}

export function LiftList({ short = false, children }: LiftListProps) {
  const headingId = useId()
  const suspects = useResults((results) => results.assessment?.suspects)
  const faults = useResults((results) => results.faults)
  const tally = useTally()
  const reading = [...useReadings().values()].some(({ state }) => state === 'reading')
  return (
    <section className={styles.section} aria-labelledby={headingId}>
      <div className={styles.heading}>
        <h2 id={headingId}>{say('Lift list')}</h2>
      </div>
      {children}
      {faults.length > 0 && (
        <ul className={files.faults}>
          {faults.map((fault) => (
            <FaultRow key={`${fault.path} ${fault.found}`} fault={fault} />
          ))}
        </ul>
      )}
      <WaitingReports run="first" />
      {tally === undefined && reading && <p className={styles.quiet}>{say('The report is being read.')}</p>}
      {tally === undefined && !reading && (
        <p className={styles.quiet}>{say('Needs a memory run: drop its report on the sheet, or fill in its table.')}</p>
      )}
      {tally !== undefined && <ListedOrWorking suspects={suspects} short={short} />}
    </section>
  )
}

const costWords = ({ expectedCost }: SuspectsResult, money: (amount: number) => string): string =>
  say('On average, comebacks counted: this list costs about {ofTheList}, lifting nothing {ofLiftingNone}.', {
    ofTheList: money(expectedCost.ofTheList),
    ofLiftingNone: money(expectedCost.ofLiftingNone),
  })

function ListedOrWorking({
  suspects,
  short,
}: {
  readonly suspects: SuspectsResult | undefined
  readonly short: boolean
}) {
  const working = useResults((results) => results.state === 'working')
  if (suspects !== undefined) return <Listed suspects={suspects} short={short} />
  return working ? (
    <p className={styles.quiet}>{say('Working it out. The first time on a board takes a moment.')}</p>
  ) : undefined
}

const NOTHING_PAYS = say('Nothing: lifting any part costs more than it saves on average.')
const NOTHING_LEFT = say('Nothing: every tested lane passes.')

function Listed({ suspects, short }: { readonly suspects: SuspectsResult; readonly short: boolean }) {
  const lifted = suspects.lift.flatMap((ref) => suspects.parts.find((part) => part.ref === ref) ?? [])
  return (
    <>
      <UntestedLanes />
      {lifted.length === 0 && <p>{suspects.proved ? NOTHING_LEFT : NOTHING_PAYS}</p>}
      {lifted.length > 0 && (
        <>
          <ol className={styles.lift} aria-label={say('Parts to lift')}>
            {lifted.map((part, i) => (
              <LiftRow key={part.ref} part={part} number={i + 1} short={short} />
            ))}
          </ol>
          <hr className={styles.rule} />
        </>
      )}
      <LeaveList suspects={suspects} />
      {lifted.length === 0 && suspects.proved && (
        <p className={styles.quiet}>{say('A fault that comes and goes can remain.')}</p>
      )}
    </>
  )
}

const REASONS_SHOWN = 1

function LiftRow({
  part,
  number,
  short,
}: {
  readonly part: PartSuspicion
  readonly number: number
  readonly short: boolean
}) {
  const desk = useDesk()
  const kind = useBoard()?.model.partByRef.get(part.ref)?.kind ?? 'other'
  const first = part.why.slice(0, REASONS_SHOWN)
  const rest = short ? [] : part.why.slice(REASONS_SHOWN)
  return (
    <li>
      <span className={styles.badge}>{number}</span>
      <div>
        <div className={styles.liftHead}>
          <button
            type="button"
            onClick={() => showOnSheet(desk, { kind: 'part', id: part.ref })}
            onMouseEnter={() => desk.screen.setState({ hovered: { kind: 'part', id: part.ref } })}
            onMouseLeave={() => desk.screen.setState({ hovered: undefined })}
          >
            <b>{part.ref}</b> <span>{spacedKind(kind)}</span>
            <span className="visually-hidden">
              {say(' {comesOff} must come off: show its evidence', { comesOff: percent(part.comesOff) })}
            </span>
          </button>
          <strong>
            <Figured of={{ kind: 'part-chance', ref: part.ref }}>{percent(part.comesOff)}</Figured>
          </strong>
        </div>
        <Bar share={part.comesOff} />
        <WashMayDo part={part} />
        <p className={styles.reasons}>
          <Reasons of={part} sentences={first} />
        </p>
        {rest.length > 0 && (
          <Opening summary={say('More reasons')}>
            <p className={styles.reasons}>
              <Reasons of={part} sentences={rest} />
            </p>
          </Opening>
        )}
      </div>
    </li>
  )
}

function LeaveList({ suspects }: { readonly suspects: SuspectsResult }) {
  const [open, setOpen] = useState(false)
  const money = useRoughMoney()
  const left = suspects.parts.filter((part) => !part.lift).toSorted((a, b) => b.comesOff - a.comesOff)
  if (left.length === 0) return undefined
  return (
    <div>
      <p className={styles.quiet}>
        <Leave left={left} />{' '}
        <LinkButton aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? say('Hide why') : say('Show why')}
        </LinkButton>
      </p>
      {open && (
        <>
          <p className={styles.quiet}>
            <FiguredText
              words={costWords(suspects, money)}
              numbers={[money(suspects.expectedCost.ofTheList), money(suspects.expectedCost.ofLiftingNone)]}
              of={{ kind: 'list-cost' }}
            />
          </p>
          <LeaveTable parts={left} />
        </>
      )}
    </div>
  )
}

const TOLD_FROM = 0.01
const TOLD = 1

function Leave({ left }: { readonly left: readonly PartSuspicion[] }) {
  const told = left.filter(({ comesOff }) => comesOff >= TOLD_FROM).slice(0, TOLD)
  const others = left.length - told.length
  if (told.length === 0) return say('Leave the other {others, plural, one {# part} other {# parts}}.', { others })
  const names = told.map(({ ref, comesOff }) => `${ref} (${percent(comesOff)})`)
  const words = say('Leave {joined}.', {
    joined: joined(others > 0 ? [...names, say('{others} more', { others })] : names),
  })
  return <FiguredText words={words} of={{ kind: 'part-chance', ref: told[0]?.ref ?? '' }} />
}

function LeaveTable({ parts }: { readonly parts: readonly PartSuspicion[] }) {
  const money = useRoughMoney()
  const desk = useDesk()
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">
        {say('Parts to leave on the board, with what lifting and leaving each would cost')}
      </caption>
      <thead>
        <tr>
          <th scope="col">{say('part')}</th>
          <th scope="col" className={styles.number}>
            {say('must come off')}
          </th>
          <th scope="col" className={styles.number}>
            {say('cost lifted')}
          </th>
          <th scope="col" className={styles.number}>
            {say('cost left')}
          </th>
        </tr>
      </thead>
      <tbody>
        {parts.map((part) => (
          <tr key={part.ref}>
            <th scope="row">
              <LinkButton onClick={() => showOnSheet(desk, { kind: 'part', id: part.ref })}>{part.ref}</LinkButton>
            </th>
            <td className={styles.number}>
              <Figured of={{ kind: 'part-chance', ref: part.ref }}>{percent(part.comesOff)}</Figured>
            </td>
            <td className={styles.number}>
              <Figured of={{ kind: 'part-cost', ref: part.ref }}>{money(part.costIfLifted)}</Figured>
            </td>
            <td className={styles.number}>
              <Figured of={{ kind: 'part-cost', ref: part.ref }}>{money(part.costIfLeft)}</Figured>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
