/** A part's channels and lanes with their errors, each down to the bit; bits are drawn as hatch and told as numbers. */
import { say } from '../../base/index.ts'
import { Check, CircleDashed, X } from 'lucide-react'
import type { BoardModel, Lane } from '../../board/index.ts'
import type { LaneTally } from '../../report/index.ts'
import { LinkButton } from '../controls/Button.tsx'
import { useDesk, useTally } from '../stores/hooks.ts'
import styles from '../controls/panel.module.css'

export function LaneRows({ model, id }: { readonly model: BoardModel; readonly id: string }) {
  const tally = useTally()
  const isCore = model.core?.ref === id
  const lanes = model.lanes.filter((lane) => (isCore ? true : lane.part === id))
  if (lanes.length === 0) return undefined
  const tallies = new Map(
    (tally?.parts ?? []).flatMap((part) =>
      part.channels.flatMap((channel) => channel.lanes.map((lane) => [lane.id, lane] as const)),
    ),
  )
  const shown = isCore ? lanes.filter((lane) => tallies.get(lane.id)?.state === 'fail') : lanes
  const channels = [...new Set(shown.map((lane) => lane.channel))]
  return (
    <div>
      <h3 className={styles.sub}>{isCore ? say('Failing lanes that it serves') : say('Channels and lanes')}</h3>
      {shown.length === 0 && <p className={styles.quiet}>{say('None.')}</p>}
      {channels.map((channel) => (
        <div key={channel}>
          <p className={styles.quiet}>{say('channel {channel}', { channel })}</p>
          <ul>
            {shown
              .filter((lane) => lane.channel === channel)
              .map((lane) => (
                <LaneRow key={lane.id} lane={lane} tally={tallies.get(lane.id)} />
              ))}
          </ul>
        </div>
      ))}
    </div>
  )
}

function LaneRow({ lane, tally }: { readonly lane: Lane; readonly tally: LaneTally | undefined }) {
  const desk = useDesk()
  return (
    <li className={styles.lane}>
      <LinkButton onClick={() => desk.screen.setState({ selection: { kind: 'lane', id: lane.id } })}>
        {lane.id}
      </LinkButton>
      <BitStrip tally={tally} />
      <LaneTag tally={tally} />
    </li>
  )
}

export function LaneTag({ tally }: { readonly tally: LaneTally | undefined }) {
  const state = tally?.state ?? 'untested'
  const Icon = state === 'fail' ? X : state === 'pass' ? Check : CircleDashed
  return (
    <span className={styles.tag} data-state={state}>
      <Icon size={13} aria-hidden="true" />
      {state === 'fail'
        ? say('{errors, plural, one {# error} other {# errors}}', { errors: tally?.errors ?? 0 })
        : state === 'pass'
          ? say('clean')
          : say('untested')}
    </span>
  )
}

function BitStrip({ tally }: { readonly tally: LaneTally | undefined }) {
  const bits = tally?.bits ?? []
  const most = Math.max(0, ...bits)
  if (most === 0) return <span />
  const failing = bits.flatMap((errors, bit) => (errors > 0 ? [say('bit {bit}: {errors}', { bit, errors })] : []))
  return (
    <span className={styles.bits} role="img" aria-label={failing.join(', ')} title={failing.join(', ')}>
      {bits.map((errors, bit) => (
        <span key={bit} className={styles.bit} data-load={errors === 0 ? 'none' : errors > most / 4 ? 'high' : 'low'} />
      ))}
    </span>
  )
}
