/** Hand-back: how it ended, what was done, what had been wrong, what it cost, advice to the owner, and the record that goes with the card. */
import { StationCautions } from '../panels/StationCautions.tsx'
import panel from '../panels/why.module.css'
import { Advice } from './handback/Advice.tsx'
import { Money } from './handback/Money.tsx'
import { Preview } from './handback/Preview.tsx'
import { WhatItWas } from './handback/WhatItWas.tsx'
import { WhatWasDone } from './handback/WhatWasDone.tsx'

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
