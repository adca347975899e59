/** The case on the desk stands on an older version: what the newer one changes in its result, and the way there. */
import { useState } from 'react'
import { type Fault, joined, sayFault, say } from '../../base/index.ts'
import { moveToVersion, tryVersion, type VersionTrial, withGlueOf } from '../actions/boardVersion.ts'
import { Button } from '../controls/Button.tsx'
import { saidAround } from '../controls/saidAround.ts'
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
  const stands = board.versions.findLast(
    ({ description }) => inside !== undefined && contentOf(withGlueOf(description, inside)) === content,
  )
  if (present === undefined || stands === undefined) return undefined
  if (stands.number === to.number)
    return (
      <p className={styles.quiet}>
        {say('The case on the desk, {title}, stands on version {number}, the last.', {
          title: present.title,
          number: to.number,
        })}
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
    <section className={styles.move} aria-label={say('Move the case on the desk')}>
      <p>
        {saidAround('The case on the desk, {title}, stands on version {from}. Version {to} is newer.', {
          title: <b>{title}</b>,
          from,
          to: to.number,
        })}
      </p>
      {look.state !== 'seen' && (
        <Button disabled={look.state === 'busy'} onClick={() => void tryIt()}>
          {look.state === 'busy'
            ? say('Reckoning on the newer version…')
            : say('See what version {number} changes in its result', { number: to.number })}
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
              const words = say('The case stands on version {number} of {name} now.', {
                number: to.number,
                name: to.description.name,
              })
              onMove(() => moveToVersion(desk, look.trial, words))
            }}
          >
            {say('Move the case to version {number}', { number: to.number })}
          </Button>
          <p className={styles.quiet}>{say('It can be undone like any other change of the case.')}</p>
        </>
      )}
    </section>
  )
}

function Trial({ trial, from, to }: { readonly trial: VersionTrial; readonly from: number; readonly to: number }) {
  return (
    <table className={styles.trial}>
      <caption>
        {trial.before.join() === trial.after.join()
          ? say('The lift list stays as it is.')
          : say('The lift list changes.')}
      </caption>
      <tbody>
        <tr>
          <th scope="row">{say('Lift list on version {from}', { from })}</th>
          <td>{listWords(trial.before)}</td>
        </tr>
        <tr>
          <th scope="row">{say('Lift list on version {to}', { to })}</th>
          <td>{listWords(trial.after)}</td>
        </tr>
        {trial.lost.length > 0 && (
          <tr>
            <th scope="row">{say('Not on the newer board')}</th>
            <td>
              {say('{lost}: what was entered for it stays in the case, and says nothing there.', {
                lost: joined(trial.lost),
              })}
            </td>
          </tr>
        )}
      </tbody>
    </table>
  )
}

const listWords = (refs: readonly string[]): string => (refs.length === 0 ? say('nothing to lift') : joined(refs))
