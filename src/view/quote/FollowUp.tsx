/** Asking the owner some weeks later whether it still works: one press an answer; the shop's own record learns from it. */
import { dayWords, say } from '../../base/index.ts'
import { useState } from 'react'
import { askAfter, type Case, dueOn, followUpAnswers, followUpWords } from '../../case/index.ts'
import { editCase } from '../actions/edit.ts'
import { today } from '../actions/clock.ts'
import { Button, LinkButton } from '../controls/Button.tsx'
import { TextField } from '../controls/fields.tsx'
import panel from '../controls/panel.module.css'
import { useDesk, usePresent } from '../stores/hooks.ts'
import styles from './quote.module.css'

type Asked = Pick<Case, 'handBack' | 'followUps'>

/** `due since 2 May`, `ask on 2 May`, or the last answer; undefined where there is nothing to ask. */
export function followUpSummary(asked: Asked, weeks: number, day: string): string | undefined {
  const last = asked.followUps?.at(-1)
  const backOn = askAfter(asked)
  const said = last === undefined ? undefined : followUpWords[last.answer]
  if (backOn === undefined) return said
  const due = dueOn(backOn, weeks)
  const when = due <= day ? say('due since {due}', { due: dayWords(due) }) : say('ask on {due}', { due: dayWords(due) })
  return said === undefined ? when : `${said}, ${when}`
}

export function FollowUp() {
  const desk = useDesk()
  const present = usePresent()
  const [note, setNote] = useState('')
  if (present === undefined) return undefined
  const { followUps = [] } = present
  const answer = (given: (typeof followUpAnswers)[number]): void => {
    editCase(desk, (c) => ({
      ...c,
      followUps: [...(c.followUps ?? []), { on: today(), answer: given, note: note.trim() }],
    }))
    setNote('')
  }
  return (
    <div className={styles.form}>
      <TextField label={say('What the owner says')} maxLength={1000} value={note} onChange={setNote} />
      <div className={styles.answers} role="group" aria-label={say('Answer of the owner today')}>
        {followUpAnswers.map((each) => (
          <Button key={each} onClick={() => answer(each)}>
            {followUpWords[each]}
          </Button>
        ))}
      </div>
      {followUps.length > 0 && (
        <ul className={panel.quiet} aria-label={say('Asked so far')}>
          {followUps.map(({ on, answer: given, note: said }, i) => (
            <li key={`${on} ${i}`}>
              {dayWords(on)}: {followUpWords[given]}
              {said !== '' && `, “${said}”`}
            </li>
          ))}
        </ul>
      )}
      {followUps.length > 0 && (
        <div>
          <LinkButton onClick={() => editCase(desk, (c) => ({ ...c, followUps: c.followUps?.slice(0, -1) ?? [] }))}>
            {say('Take back the last answer')}
          </LinkButton>
        </div>
      )}
    </div>
  )
}
