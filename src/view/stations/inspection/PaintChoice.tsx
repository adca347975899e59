/** How an area is painted: a circle pulled from its middle, a brush of some width, or a lasso around it. */
import { Brush, Circle, Lasso } from 'lucide-react'
import { Choice, NumberField } from '../../controls/fields.tsx'
import styles from '../../panels/why.module.css'
import type { Painting } from '../../sheet/index.ts'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import own from './inspection.module.css'

const manners = [
  { value: 'circle', icon: Circle, word: 'Circle', help: 'Press in the middle and pull.' },
  { value: 'brush', icon: Brush, word: 'Brush', help: 'Press and go along what you see.' },
  { value: 'lasso', icon: Lasso, word: 'Lasso', help: 'Press and go round it; it closes by itself.' },
] as const

const options = manners.map(({ value, icon: Icon, word }) => ({
  value,
  words: (
    <span className={own.manner}>
      <Icon size={15} aria-hidden="true" /> {word}
    </span>
  ),
}))

export function PaintChoice() {
  const desk = useDesk()
  const painting = useScreen((screen) => screen.painting)
  const set = (change: Partial<Painting>): void => desk.screen.setState({ painting: { ...painting, ...change } })
  return (
    <div className={styles.section}>
      <Choice label="Painted as" value={painting.manner} options={options} onChange={(manner) => set({ manner })} />
      {painting.manner === 'brush' && (
        <NumberField
          label="Half the brush’s width"
          unit="mm"
          min={0.2}
          max={50}
          step={0.5}
          value={painting.brushMm}
          onChange={(brushMm) => set({ brushMm })}
        />
      )}
      <p className={styles.quiet}>
        {manners.find(({ value }) => value === painting.manner)?.help} A clean spot says as much as a dirty one.
      </p>
    </div>
  )
}
