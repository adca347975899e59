/** A substance's figures with range and source, and what it attacks. */
import { say } from '../../../base/index.ts'
import type { Substance } from '../../../spill/index.ts'
import styles from '../../controls/panel.module.css'
import { amountWords, percent } from '../../stores/words.ts'

export const figureNames = [
  ['densityKgM3', say('density'), 'kg/m³'],
  ['surfaceTensionNM', say('surface tension'), 'N/m'],
  ['viscosityPaS', say('viscosity'), 'Pa·s'],
  ['contactAngleMaskDeg', say('contact angle on solder mask'), '°'],
  ['contactAngleMetalDeg', say('contact angle on metal'), '°'],
  ['resistivityOhmM', say('resistivity'), 'Ω·m'],
  ['meltingC', say('melts at'), '°C'],
  ['filmThicknessMm', say('film thickness'), 'mm'],
] as const

export function SubstanceFigures({ substance }: { readonly substance: Substance }) {
  return (
    <table className={styles.table} data-sources>
      <caption className="visually-hidden">{say('Figures of {name}', { name: substance.name })}</caption>
      <thead>
        <tr>
          <th scope="col">{say('figure')}</th>
          <th scope="col">{say('value')}</th>
          <th scope="col">{say('from')}</th>
        </tr>
      </thead>
      <tbody>
        {figureNames.map(([field, name, unit]) => {
          const figure = substance[field]
          if (figure === undefined) return undefined
          const range =
            figure.low === undefined || figure.high === undefined
              ? ''
              : say(' ({low} to {high})', { low: figure.low, high: figure.high })
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
            <th scope="row">{say('usual amount')}</th>
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
  return say('{words}; pressed on with {chance}, then about {pushMm} mm further', {
    words,
    chance: percent(pressed.chance),
    pushMm: pressed.pushMm,
  })
}
