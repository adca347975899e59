/** The stations of the work as a list, each with what it holds and what it still lacks; below it, whether to power. */
import { say } from '../../base/index.ts'
import { CircleCheck, CircleDashed, Contrast } from 'lucide-react'
import type { KeyboardEvent } from 'react'
import { useStore } from 'zustand'
import type { Station as ShownStation } from '../../case/index.ts'
import { goToStation } from '../actions/goToStation.ts'
import { useBoard, useDesk, usePlan, usePresent, useProof, useReadings, useScreen, useTally } from '../stores/hooks.ts'
import { entries, type StationState, stationStates } from '../stations/entries.ts'
import { PowerCaution } from './PowerCaution.tsx'
import styles from './stationList.module.css'

/** Their panels say whether to power. */
const saysItself = new Set<ShownStation>(['arrival', 'cold-measuring', 'powered-measuring'])

const symbols = {
  done: { Icon: CircleCheck, words: say('filled in') },
  partly: { Icon: Contrast, words: say('partly filled in') },
  empty: { Icon: CircleDashed, words: say('empty') },
} as const

export function StationList() {
  const desk = useDesk()
  const present = usePresent()
  const tally = useTally()
  const proof = useProof()
  const readings = useReadings()
  const results = useStore(desk.results)
  const planState = usePlan((plan) => plan.state)
  const answer = usePlan((plan) => plan.answer)
  const current = useScreen((screen) => screen.station)
  const model = useBoard()?.model
  if (present === undefined) return <nav className={styles.stations} aria-label={say('Stations')} />
  return (
    <nav className={styles.stations} aria-label={say('Stations')}>
      <ol>
        {stationStates({ present, tally, readings, results, plan: { state: planState, answer }, proof, model }).map(
          (entry) => (
            <li key={entry.station}>
              <Station entry={entry} current={entry.station === current} />
            </li>
          ),
        )}
      </ol>
      {!saysItself.has(current) && (
        <div className={styles.caution}>
          <PowerCaution />
        </div>
      )}
    </nav>
  )
}

function Station({ entry, current }: { readonly entry: StationState; readonly current: boolean }) {
  const desk = useDesk()
  const { Icon, words } = symbols[entry.state]
  const key = entries[entry.station].key
  return (
    <button
      type="button"
      className={styles.station}
      data-state={entry.state}
      aria-current={current ? 'step' : undefined}
      aria-keyshortcuts={key}
      title={say('{name} (key {key}; while typing, Escape first)', { name: entry.name, key })}
      onClick={() => goToStation(desk, entry.station)}
      onKeyDown={walkWithArrows}
    >
      <Icon size={17} aria-hidden="true" />
      <span>
        <b>{entry.name}</b>
        <span className="visually-hidden">, {words}: </span>
        <small>
          {entry.words}
          {entry.lacks !== undefined && (
            <>
              <span className="visually-hidden">; </span>
              <span className={styles.lacks}>{entry.lacks}</span>
            </>
          )}
        </small>
      </span>
      <kbd aria-hidden="true">{key}</kbd>
    </button>
  )
}

/** Arrows go to the neighbour in the list or, where it stands in columns, in the grid; Home and End to its ends. */
function walkWithArrows(event: KeyboardEvent<HTMLButtonElement>): void {
  const buttons = [...(event.currentTarget.closest('ol')?.querySelectorAll('button') ?? [])]
  const at = buttons.indexOf(event.currentTarget)
  const first = buttons[0]
  if (at < 0 || first === undefined) return
  const columns = buttons.filter(({ offsetTop }) => Math.abs(offsetTop - first.offsetTop) < 2).length
  const steps: Readonly<Record<string, number>> = {
    ArrowLeft: -1,
    ArrowRight: 1,
    ArrowUp: -columns,
    ArrowDown: columns,
    Home: -at,
    End: buttons.length - 1 - at,
  }
  const step = steps[event.key]
  if (step === undefined) return
  event.preventDefault()
  buttons[at + step]?.focus()
}
