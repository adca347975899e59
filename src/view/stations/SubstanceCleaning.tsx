/** How a substance comes off the board, folded in; of one that nobody described, that its data sheet has to be asked. */
import type { Cleaning, Substance } from '../../spill/index.ts'
import { Opening } from '../controls/pieces.tsx'
import styles from '../panels/why.module.css'
import own from './cleaning.module.css'

type Said = Cleaning['driveOut']

export function SubstanceCleaning({ substance }: { readonly substance: Substance }) {
  const { cleaning } = substance
  if (cleaning === undefined)
    return <p className={styles.quiet}>How it comes off is not known here: ask for its data sheet before you wash.</p>
  const { takeUp, rinses, dissolvesIn, notIn, driveOut, leftByDrying, howKnown, destroys, cooler, joints } = cleaning
  const steps = [...(takeUp === undefined ? [] : [takeUp]), ...rinses]
  return (
    <Opening summary="How it is cleaned off">
      <ol className={own.steps}>
        {steps.map(({ how, source }) => (
          <li key={how} title={source}>
            {sentence(how)}
          </li>
        ))}
        <li title={driveOut.source}>{driveOut.words}</li>
        <li title={cleaning.dryC.source}>{dryWords(cleaning)}</li>
      </ol>
      <dl className={own.said}>
        <Row name="Clean when" said={[howKnown]} />
        <Row name="Dissolves in" said={dissolvesIn} />
        <Row name="Not in" said={notIn} />
        <Row name="Drying alone leaves" said={[leftByDrying]} />
        <Row name="Not used again" said={destroys} />
        <Row name="Cooler" said={[cooler]} />
        {joints !== undefined && <Row name="Joints" said={[joints]} />}
      </dl>
    </Opening>
  )
}

function Row({ name, said }: { readonly name: string; readonly said: readonly Said[] }) {
  const sources = [...new Set(said.map(({ source }) => source))].join('; ')
  return (
    <>
      <dt>{name}</dt>
      <dd>
        {said.map(({ words }) => sentence(words)).join(' ')} <small>({sources})</small>
      </dd>
    </>
  )
}

const sentence = (words: string): string =>
  `${words.charAt(0).toUpperCase()}${words.slice(1)}${words.endsWith('.') ? '' : '.'}`

/** An oven from here on; below, it stands in the open. */
const OVEN_FROM_C = 35

function dryWords({ dryC, dryMinutes }: Cleaning): string {
  const minutes = dryMinutes.value >= 60 ? `${dryMinutes.value / 60} h` : `${dryMinutes.value} min`
  return dryC.value < OVEN_FROM_C
    ? `Let it air for ${minutes}.`
    : `Let the solvent air off, then dry at ${dryC.value} °C for ${minutes}.`
}
