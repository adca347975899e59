/** The case on the desk stands on an older version: what the newer one changes in its result, and the way there. */
import { useState } from 'react'
import { type Fault, joined, sayFault } from '../../base/index.ts'
import { moveToVersion, tryVersion, type VersionTrial } from '../actions/boardVersion.ts'
import { Button } from '../controls/Button.tsx'
import { type BoardVersion, contentOf, type KeptBoard } from '../shelf/boardShelf.ts'
import { useDesk, usePresent } from '../stores/hooks.ts'
import styles from './own-board.module.css'

interface MoveCaseProps {
  readonly board: KeptBoard
  readonly to: BoardVersion
  /** @param move does it */
  readonly onMove: (move: () => void) => void
}

export function MoveCase({ board, to, onMove }: MoveCaseProps) {
  const present = usePresent()
  const inside = present !== undefined && 'inline' in present.board ? present.board.inline : undefined
  const content = inside === undefined ? undefined : contentOf(inside)
  const stands = board.versions.findLast(({ description }) => contentOf(description) === content)
  if (present === undefined || stands === undefined) return undefined
  if (stands.number === to.number)
    return (
      <p className={styles.quiet}>
        The case on the desk, {present.title}, stands on version {to.number}, the last.
      </p>
    )
  return <Older title={present.title} from={stands.number} to={to} onMove={onMove} />
}

interface OlderProps {
  readonly title: string
  readonly from: number
  readonly to: BoardVersion
  /** @param move does it */
  readonly onMove: (move: () => void) => void
}

type Look =
  | { readonly state: 'none' | 'busy' }
  | { readonly state: 'seen'; readonly trial: VersionTrial }
  | { readonly state: 'failed'; readonly faults: readonly Fault[] }

function Older({ title, from, to, onMove }: OlderProps) {
  const desk = useDesk()
  const [look, setLook] = useState<Look>({ state: 'none' })
  const tryIt = async (): Promise<void> => {
    setLook({ state: 'busy' })
    const trial = await tryVersion(desk, to.description)
    setLook(trial.ok ? { state: 'seen', trial: trial.value } : { state: 'failed', faults: trial.faults })
  }
  return (
    <section className={styles.move} aria-label="Move the case on the desk">
      <p>
        The case on the desk, <b>{title}</b>, stands on version {from}. Version {to.number} is newer.
      </p>
      {look.state !== 'seen' && (
        <Button disabled={look.state === 'busy'} onClick={() => void tryIt()}>
          {look.state === 'busy'
            ? 'Reckoning on the newer version…'
            : `See what version ${to.number} changes in its result`}
        </Button>
      )}
      <div role="alert">
        {look.state === 'failed' && look.faults.map((fault) => <p key={fault.path + fault.found}>{sayFault(fault)}</p>)}
      </div>
      {look.state === 'seen' && (
        <>
          <Trial trial={look.trial} from={from} to={to.number} />
          <Button
            tone="strong"
            onClick={() => {
              const words = `The case stands on version ${to.number} of ${to.description.name} now.`
              onMove(() => moveToVersion(desk, look.trial, words))
            }}
          >
            Move the case to version {to.number}
          </Button>
          <p className={styles.quiet}>It can be undone like any other change of the case.</p>
        </>
      )}
    </section>
  )
}

function Trial({ trial, from, to }: { readonly trial: VersionTrial; readonly from: number; readonly to: number }) {
  return (
    <table className={styles.trial}>
      <caption>
        {trial.before.join() === trial.after.join() ? 'The lift list stays as it is.' : 'The lift list changes.'}
      </caption>
      <tbody>
        <tr>
          <th scope="row">Lift list on version {from}</th>
          <td>{listWords(trial.before)}</td>
        </tr>
        <tr>
          <th scope="row">Lift list on version {to}</th>
          <td>{listWords(trial.after)}</td>
        </tr>
        {trial.lost.length > 0 && (
          <tr>
            <th scope="row">Not on the newer board</th>
            <td>{joined(trial.lost)}: what was entered for it stays in the case, and says nothing there.</td>
          </tr>
        )}
      </tbody>
    </table>
  )
}

const listWords = (refs: readonly string[]): string => (refs.length === 0 ? 'nothing to lift' : joined(refs))
