/** A small picture of a substance, drawn for it; one of the user's own takes that of its way of moving. */
import type { ReactNode } from 'react'
import type { Substance } from '../../../spill/index.ts'

const line = {
  fill: 'none',
  stroke: 'currentColor',
  strokeWidth: 1.6,
  strokeLinecap: 'round',
  strokeLinejoin: 'round',
} as const
const full = { ...line, fill: 'currentColor', fillOpacity: 0.25 } as const

const drop = <path {...full} d="M12 3c4 5 6 7.6 6 11a6 6 0 0 1-12 0c0-3.4 2-6 6-11z" />
const metal = (
  <>
    <path {...full} fillOpacity={0.55} d="M4 14c0-4 4-7 8.5-7S20 9 20 13c0 5-4 6-8 6s-8-1-8-5z" />
    <path {...line} stroke="var(--sheet)" d="M8 11c1-1.5 2.5-2 4-2" />
  </>
)
const syringe = (
  <>
    <path {...full} d="M8 9.5 14.5 16l-3 3L5 12.500z" />
    <path {...line} d="m11.5 6 6.5 6.500M14.8 9.2 19 5M17 3l4 4M5.5 18.5 8 16" />
  </>
)
const paste = (
  <>
    <path {...full} d="M9 3h6l1 10H8z" />
    <path {...line} d="M10.5 13v3h3v-3M12 16c0 2 3 2 3 3.500S12.5 21 10 21" />
  </>
)

const pictures: Readonly<Record<string, ReactNode>> = {
  'coolant-eg': (
    <>
      {drop}
      <path {...line} d="M9 15c1-1 2-1 3 0s2 1 3 0" />
    </>
  ),
  'coolant-pg': (
    <>
      {drop}
      <path {...line} d="M9 13c1-1 2-1 3 0s2 1 3 0M9 16.500c1-1 2-1 3 0s2 1 3 0" />
    </>
  ),
  water: drop,
  'sugared-drink': (
    <>
      <path {...full} d="M6 8h12l-1.5 13h-9z" />
      <path {...line} d="m12 8 2-6h4M8 13h8" />
    </>
  ),
  'gallium-indium': metal,
  'gallium-indium-tin': (
    <>
      {metal}
      <circle {...full} fillOpacity={0.55} cx="19" cy="5" r="2.3" />
    </>
  ),
  'cooling-compound': (
    <>
      {paste}
      <circle cx="10.5" cy="7" r="1" fill="currentColor" />
      <circle cx="13.5" cy="9.5" r="1" fill="currentColor" />
    </>
  ),
  'thermal-paste': paste,
  'pad-oil': (
    <>
      <path {...full} d="M3 5h18v5H3z" />
      <path
        {...line}
        d="M8 13c1.5 2 2 3 2 4a2 2 0 0 1-4 0c0-1 0.5-2 2-4zM16 12c1.5 2 2 3 2 4a2 2 0 0 1-4 0c0-1 0.5-2 2-4z"
      />
    </>
  ),
  'flux-fresh': syringe,
  'flux-dried': <path {...full} strokeDasharray="2.5 2" d="M4 15c0-3 2-4 3-6s4-4 7-2 6 3 6 7-4 6-8 6-8-1-8-5z" />,
  varnish: (
    <>
      <path {...full} d="M7 12h10v4l-3 1v4h-4v-4l-3-1z" />
      <path {...line} d="M9 12V3h6v9" />
    </>
  ),
  'battery-alkaline': (
    <>
      <path {...full} d="M7 6h10v11H7z" />
      <path {...line} d="M10 6V3.500h4V6M12 9v4M10 11h4M9 17c0 2 1 2 1 4M14 17c0 1.5-1 2-1 3" />
    </>
  ),
}

const byMoving: Readonly<Record<Substance['moves'], ReactNode>> = {
  wets: drop,
  pinned: metal,
  crust: pictures['flux-dried'],
}

export function SubstancePicture({ substance }: { readonly substance: Pick<Substance, 'id' | 'moves'> }) {
  return (
    <svg width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">
      {pictures[substance.id] ?? byMoving[substance.moves]}
    </svg>
  )
}
