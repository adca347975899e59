/** How an area is painted: a circle pulled from its middle, a brush of some width, or a lasso around it; while a tool paints. */
import { Choice, NumberField } from '../../controls/fields.tsx'
import { mannerNames, manners, paints } from './manners.ts'
import styles from '../../controls/panel.module.css'
import type { Painting } from '../../sheet/index.ts'
import { useDesk, useScreen } from '../../stores/hooks.ts'
import own from './inspection.module.css'

const options = mannerNames.map((value) => {
  const { icon: Icon, words } = manners[value]
  const shown = (
    <span className={own.manner}>
      <Icon size={15} aria-hidden="true" /> {words}
    </span>
  )
  return { value, words: shown }
})

export function PaintChoice() {
  const desk = useDesk()
  const painting = useScreen((screen) => screen.painting)
  const painted = useScreen((screen) => paints(screen.tool))
  const set = (change: Partial<Painting>): void => desk.screen.setState({ painting: { ...painting, ...change } })
  if (!painted) return <p className={styles.quiet}>A clean spot says as much as a dirty one.</p>
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
      <p className={styles.quiet}>{manners[painting.manner].help} A clean spot says as much as a dirty one.</p>
    </div>
  )
}
