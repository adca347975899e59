/** A substance's figures with range and source, and what it attacks. */
import type { Substance } from '../../../spill/index.ts'
import styles from '../../controls/panel.module.css'
import { amountWords, percent } from '../../stores/words.ts'

export const figureNames = [
  ['densityKgM3', 'density', 'kg/m³'],
  ['surfaceTensionNM', 'surface tension', 'N/m'],
  ['viscosityPaS', 'viscosity', 'Pa·s'],
  ['contactAngleMaskDeg', 'contact angle on solder mask', '°'],
  ['contactAngleMetalDeg', 'contact angle on metal', '°'],
  ['resistivityOhmM', 'resistivity', 'Ω·m'],
  ['meltingC', 'melts at', '°C'],
  ['filmThicknessMm', 'film thickness', 'mm'],
] as const

export function SubstanceFigures({ substance }: { readonly substance: Substance }) {
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">Figures of {substance.name}</caption>
      <thead>
        <tr>
          <th scope="col">figure</th>
          <th scope="col">value</th>
          <th scope="col">from</th>
        </tr>
      </thead>
      <tbody>
        {figureNames.map(([field, name, unit]) => {
          const figure = substance[field]
          if (figure === undefined) return undefined
          const range =
            figure.low === undefined || figure.high === undefined ? '' : ` (${figure.low} to ${figure.high})`
          return (
            <tr key={field}>
              <th scope="row">{name}</th>
              <td>
                {figure.value}
                {range} {unit}
              </td>
              <td>{figure.source}</td>
            </tr>
          )
        })}
        {substance.usual !== undefined && (
          <tr>
            <th scope="row">usual amount</th>
            <td>{usualWords(substance.usual)}</td>
            <td>{substance.usual.source}</td>
          </tr>
        )}
      </tbody>
    </table>
  )
}

function usualWords({ amount, pressed }: NonNullable<Substance['usual']>): string {
  const words = amountWords(amount)
  if (pressed === undefined) return words
  return `${words}; pressed on with ${percent(pressed.chance)}, then about ${pressed.pushMm} mm further`
}
