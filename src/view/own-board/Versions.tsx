/** All versions of a board: number, when, who, what changed, how many cards; and what can be done with each. */
import { useState } from 'react'
import { sentenceCase, say } from '../../base/index.ts'
import type { BoardDescription } from '../../board/index.ts'
import { Button } from '../controls/Button.tsx'
import { Opening } from '../controls/pieces.tsx'
import { type BoardVersion, latestOf, type VersionsToRemove } from '../shelf/boardShelf.ts'
import { exportBoard } from './exportBoard.ts'
import type { BoardSubject } from './keepVersion.ts'
import { MoveCase } from './MoveCase.tsx'
import styles from './own-board.module.css'
import { cardsWords, whenWords } from './words.ts'

interface VersionsProps {
  readonly subject: BoardSubject
  readonly onBegin: (board: BoardDescription) => void
  readonly onEdit: (version: BoardVersion) => void
  /** @param number of the later one */
  readonly onCompare: (number: number) => void
  /** @param move does it */
  readonly onMove: (move: () => void) => void
  /** @returns why it could not be deleted; undefined where it was */
  readonly onDelete: (what: VersionsToRemove) => Promise<string | undefined>
}

/** A board that is not kept yet has one version: the one that its cases have. */
export const versionsOf = ({ kept, description, changedAt }: BoardSubject): readonly BoardVersion[] =>
  kept?.versions ?? [{ number: 1, at: changedAt, who: '', changed: [say('As the cases on it have it.')], description }]

export function Versions({ subject, onBegin, onEdit, onCompare, onMove, onDelete }: VersionsProps) {
  const versions = versionsOf(subject)
  return (
    <div className={styles.versions}>
      {subject.kept !== undefined && <MoveCase board={subject.kept} to={latestOf(subject.kept)} onMove={onMove} />}
      <p className={styles.quiet}>
        {say(
          'A new version changes no case by itself: each stays on the board that it was begun on until you move it.',
        )}
      </p>
      <ol className={styles.versionList} aria-label={say('Versions, the last first')} reversed>
        {versions.toReversed().map((version) => {
          const { number, at, who, changed, description } = version
          return (
            <li key={number} aria-label={say('Version {number}', { number })}>
              <div className={styles.versionHead}>
                <b>{say('Version {number}', { number })}</b>
                <span>{whenWords(at)}</span>
                <span>{who === '' ? say('nobody named') : say('by {who}', { who })}</span>
                <span>{sentenceCase(cardsWords(subject.cases.get(number) ?? 0))}</span>
              </div>
              <Changes changed={changed} />
              <div className={styles.buttons}>
                <Button onClick={() => onBegin(description)}>{say('Begin a case on it')}</Button>
                <Button onClick={() => onEdit(version)}>{say('Edit from it')}</Button>
                {number > (versions[0]?.number ?? 1) && (
                  <Button onClick={() => onCompare(number)}>{say('Compare with the one before')}</Button>
                )}
                <Button onClick={() => exportBoard(description, number)}>{say('Export')}</Button>
                {subject.kept !== undefined && version !== versions.at(-1) && (
                  <Deleting
                    what={say('version {number}', { number })}
                    onDelete={() => onDelete({ board: subject.kept?.id ?? '', number })}
                  />
                )}
              </div>
            </li>
          )
        })}
      </ol>
      {subject.kept !== undefined && (
        <Deleting what={say('this board')} onDelete={() => onDelete({ board: subject.kept?.id ?? '' })} />
      )}
    </div>
  )
}

/** Asks once more: nothing brings it back. */
function Deleting({ what, onDelete }: { readonly what: string; readonly onDelete: () => Promise<string | undefined> }) {
  const [asked, setAsked] = useState(false)
  const [trouble, setTrouble] = useState<string>()
  if (!asked) return <Button onClick={() => setAsked(true)}>{say('Delete {what}…', { what })}</Button>
  return (
    <div className={styles.buttons} role="group" aria-label={say('Delete {what}', { what })}>
      <p role="alert">{trouble ?? say('Delete {what} for good? Its cases keep their board.', { what })}</p>
      <Button onClick={() => setAsked(false)}>{say('Keep it')}</Button>
      <Button tone="strong" onClick={() => void onDelete().then(setTrouble)}>
        {say('Delete')}
      </Button>
    </div>
  )
}

const MOST_SHOWN = 3

function Changes({ changed }: { readonly changed: readonly string[] }) {
  const more = changed.slice(MOST_SHOWN)
  return (
    <>
      <ul className={styles.changes}>
        {changed.slice(0, MOST_SHOWN).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {more.length > 0 && (
        <Opening summary={say('{length} more', { length: more.length })}>
          <ul className={styles.changes}>
            {more.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </Opening>
      )}
    </>
  )
}
