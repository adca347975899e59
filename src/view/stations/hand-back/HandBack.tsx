/** Hand-back: how it ended, what was done, what had been wrong, what it cost, advice to the owner, and the record that goes with the card. */
import { StationCautions } from '../../controls/StationCautions.tsx'
import panel from '../../controls/panel.module.css'
import { Advice } from './Advice.tsx'
import { Money } from './Money.tsx'
import { Preview } from './Preview.tsx'
import { WhatItWas } from './WhatItWas.tsx'
import { WhatWasDone } from './WhatWasDone.tsx'

export function HandBack() {
  return (
    <>
      <section className={panel.section} aria-label="Hand-back">
        <div className={panel.heading}>
          <h2>Hand-back</h2>
          <span>what was done, what it cost, the record</span>
        </div>
        <StationCautions station="hand-back" title="Before it leaves" />
        <WhatWasDone />
      </section>
      <WhatItWas />
      <Money />
      <Advice />
      <Preview />
    </>
  )
}
