/** The stations of the work as a list, each with what it holds and what it still lacks; below it, whether to power. */
import { CircleCheck, CircleDashed, Contrast } from 'lucide-react'
import { useStore } from 'zustand'
import { useDesk, usePlan, usePresent, useReadings, useScreen, useTally } from '../stores/hooks.ts'
import { type StationState, stationStates } from '../stores/stationStates.ts'
import { PowerCaution } from './PowerCaution.tsx'
import styles from './stationList.module.css'

const symbols = {
  done: { Icon: CircleCheck, words: 'filled in' },
  partly: { Icon: Contrast, words: 'partly filled in' },
  empty: { Icon: CircleDashed, words: 'empty' },
} as const

export function StationList() {
  const desk = useDesk()
  const present = usePresent()
  const tally = useTally()
  const readings = useReadings()
  const results = useStore(desk.results)
  const planState = usePlan((plan) => plan.state)
  const answer = usePlan((plan) => plan.answer)
  const current = useScreen((screen) => screen.station)
  if (present === undefined) return <nav className={styles.stations} aria-label="Stations" />
  return (
    <nav className={styles.stations} aria-label="Stations">
      <ol>
        {stationStates({ present, tally, readings, results, plan: { state: planState, answer } }).map((entry) => (
          <li key={entry.station}>
            <Station entry={entry} current={entry.station === current} />
          </li>
        ))}
      </ol>
      {current !== 'arrival' && (
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
  return (
    <button
      type="button"
      className={styles.station}
      data-state={entry.state}
      aria-current={current ? 'step' : undefined}
      onClick={() => desk.screen.setState({ station: entry.station, selection: undefined })}
    >
      <Icon size={18} aria-hidden="true" />
      <span>
        <b>{entry.name}</b>
        <span className="visually-hidden">, {words}: </span>
        <small>{entry.words}</small>
        {entry.lacks !== undefined && <small className={styles.lacks}>{entry.lacks}</small>}
      </span>
    </button>
  )
}
