/** What the list of cases is narrowed to: words, state of the visit, bench or archive; and its order. */
import { Search } from 'lucide-react'
import type { RefObject } from 'react'
import { type VisitState, visitStates } from '../../case/index.ts'
import { Choice, SelectField } from '../controls/fields.tsx'
import styles from './caseList.module.css'
import type { CaseChoice } from './choose.ts'

interface ChoicesProps {
  readonly search: RefObject<HTMLInputElement | null>
  readonly choice: CaseChoice
  readonly onChange: (choice: CaseChoice) => void
}

const visits: readonly { readonly value: VisitState | 'any'; readonly words: string }[] = [
  { value: 'any', words: 'Any state' },
  ...visitStates.map((value) => ({ value, words: value.slice(0, 1).toUpperCase() + value.slice(1) })),
]
const places = [
  { value: 'bench', words: 'On the bench' },
  { value: 'archive', words: 'Archived' },
  { value: 'all', words: 'All' },
] as const
const orders = [
  { value: 'changed', words: 'Last changed first' },
  { value: 'arrived', words: 'Longest here first' },
] as const

export function Choices({ search, choice, onChange }: ChoicesProps) {
  return (
    <search className={styles.choices}>
      <div className={styles.search}>
        <Search size={16} aria-hidden="true" />
        <input
          ref={search}
          type="search"
          autoComplete="off"
          spellCheck={false}
          aria-label="Search the cases"
          placeholder="Title, card, owner, board, substance"
          value={choice.typed}
          onChange={(event) => onChange({ ...choice, typed: event.target.value })}
        />
      </div>
      <Choice
        label="Where"
        labelHidden
        value={choice.where}
        options={places}
        onChange={(where) => onChange({ ...choice, where })}
      />
      <SelectField
        label="State of the visit"
        labelHidden
        value={choice.visit}
        options={visits}
        onChange={(visit) => onChange({ ...choice, visit })}
      />
      <SelectField
        label="Order"
        labelHidden
        value={choice.order}
        options={orders}
        onChange={(order) => onChange({ ...choice, order })}
      />
    </search>
  )
}
