/** What the list of cases is narrowed to: words, state of the visit, bench or archive; and its order. */
import { say, sentenceCase } from '../../base/index.ts'
import { ScanLine, Search } from 'lucide-react'
import type { RefObject } from 'react'
import { visitStates, visitWords } from '../../case/index.ts'
import { showScanner } from '../actions/caseList.ts'
import { Button } from '../controls/Button.tsx'
import { Choice, SelectField } from '../controls/fields.tsx'
import { useDesk } from '../stores/hooks.ts'
import styles from './caseList.module.css'
import type { CaseChoice } from './choose.ts'

interface ChoicesProps {
  readonly search: RefObject<HTMLInputElement | null>
  readonly choice: CaseChoice
  readonly onChange: (choice: CaseChoice) => void
  /** Enter in the search: opens the case where it is the only one. */
  readonly onEnter: () => void
}

const visits: readonly { readonly value: CaseChoice['visit']; readonly words: string }[] = [
  { value: 'any', words: say('Any state') },
  { value: 'overdue', words: say('Overdue') },
  { value: 'due soon', words: say('Due in 3 days, or overdue') },
  ...visitStates.map((value) => ({ value, words: sentenceCase(visitWords[value]) })),
]
const places = [
  { value: 'bench', words: say('On the bench') },
  { value: 'archive', words: say('Archived') },
  { value: 'all', words: say('All') },
] as const
const orders = [
  { value: 'changed', words: say('Last changed first') },
  { value: 'arrived', words: say('Longest here first') },
  { value: 'due', words: say('Due first') },
] as const

export function Choices({ search, choice, onChange, onEnter }: ChoicesProps) {
  return (
    <search className={styles.choices}>
      <div className={styles.search}>
        <Search size={16} aria-hidden="true" />
        <input
          ref={search}
          type="search"
          autoComplete="off"
          spellCheck={false}
          aria-label={say('Search the cases')}
          placeholder={say('Code, serial, owner, model, card, title')}
          value={choice.typed}
          onChange={(event) => onChange({ ...choice, typed: event.target.value })}
          onKeyDown={(event) => event.key === 'Enter' && onEnter()}
        />
      </div>
      <ScanButton />
      <Choice
        label={say('Where')}
        labelHidden
        value={choice.where}
        options={places}
        onChange={(where) => onChange({ ...choice, where })}
      />
      <SelectField
        label={say('State of the visit')}
        labelHidden
        value={choice.visit}
        options={visits}
        onChange={(visit) => onChange({ ...choice, visit })}
      />
      <SelectField
        label={say('Order')}
        labelHidden
        value={choice.order}
        options={orders}
        onChange={(order) => onChange({ ...choice, order })}
      />
    </search>
  )
}

function ScanButton() {
  const desk = useDesk()
  return (
    <Button
      className={styles.scan}
      aria-haspopup="dialog"
      title={say('Find a case by the code of its slip, with a camera')}
      onClick={() => showScanner(desk)}
    >
      <ScanLine size={16} aria-hidden="true" /> {say('Scan')}
    </Button>
  )
}
