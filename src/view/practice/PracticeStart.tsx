/** Which card: board, difficulty, and the number from which it is made, so that it can be played again. */
import { say } from '../../base/index.ts'
import { Dices, Play } from 'lucide-react'
import { useState } from 'react'
import { difficulties, MOST_SEED } from '../../rehearsal/index.ts'
import { beginPractice, randomSeed } from '../actions/practice.ts'
import { Button } from '../controls/Button.tsx'
import { NumberField, SelectField } from '../controls/fields.tsx'
import controls from '../controls/controls.module.css'
import panel from '../controls/panel.module.css'
import { useDesk } from '../stores/hooks.ts'
import styles from './practice.module.css'

export function PracticeStart() {
  const desk = useDesk()
  const { boards } = desk.shelf
  const [board, setBoard] = useState(boards.find((name) => name.startsWith('bowline')) ?? boards[0] ?? '')
  const [difficulty, setDifficulty] = useState(difficulties[0]?.id ?? '')
  const [seed, setSeed] = useState(randomSeed)
  return (
    <form
      className={styles.start}
      aria-label={say('A card to practise on')}
      onSubmit={(event) => {
        event.preventDefault()
        void beginPractice(desk, { board, seed: Math.round(seed), difficulty })
      }}
    >
      <p>
        {say(
          'Liftmap makes up a damaged card and knows what is wrong with it. You measure, look, try, lift and test; each costs its minutes. When you hand it back you are told the truth, what it cost you beside Liftmap on the very same card, and what each piece of evidence was worth.',
        )}
      </p>
      <fieldset className={styles.difficulties}>
        <legend className={panel.sub}>{say('How hard')}</legend>
        {difficulties.map(({ id, name, words }) => (
          <label key={id} className={styles.difficulty}>
            <input
              type="radio"
              name={say('difficulty')}
              value={id}
              checked={difficulty === id}
              onChange={() => setDifficulty(id)}
            />
            <b>{name}</b>
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
      <div className={styles.which}>
        <SelectField
          label={say('Board')}
          value={board}
          options={boards.map((name) => ({ value: name, words: name.replace(/(\.board)?\.json$/, '') }))}
          onChange={setBoard}
        />
        <NumberField label={say('Number of the card')} value={seed} min={0} max={MOST_SEED} onChange={setSeed} />
        <Button onClick={() => setSeed(randomSeed())}>
          <Dices size={16} aria-hidden="true" /> {say('Another number')}
        </Button>
      </div>
      <p className={panel.quiet}>{say('The same board, difficulty and number always make the same card.')}</p>
      <div>
        <button type="submit" className={controls.button} data-tone="strong" disabled={board === ''}>
          <Play size={16} aria-hidden="true" /> {say('Take the card in')}
        </button>
      </div>
    </form>
  )
}
