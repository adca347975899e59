/** A small sample of how an overlay is drawn on the sheet. */
import { useId } from 'react'
import type { Overlays } from '../sheet/index.ts'

export function Swatch({ of }: { readonly of: keyof Overlays }) {
  return (
    <svg width="20" height="14" viewBox="0 0 20 14" aria-hidden="true">
      <Sample of={of} />
    </svg>
  )
}

function Sample({ of }: { readonly of: keyof Overlays }) {
  const hatch = useId()
  if (of === 'errorLoad')
    return (
      <>
        <pattern id={hatch} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V4" stroke="var(--load)" strokeWidth="3" />
        </pattern>
        <rect x="1" y="1" width="18" height="12" fill={`url(#${hatch})`} />
      </>
    )
  if (of === 'reach')
    return <rect x="2" y="2" width="16" height="10" rx="2" fill="none" stroke="var(--reach)" strokeWidth="2" />
  if (of === 'field') return <rect x="1" y="1" width="18" height="12" rx="2" fill="var(--field)" opacity="0.6" />
  if (of === 'passes')
    return (
      <>
        <circle cx="8" cy="7" r="6" fill="none" stroke="var(--ink)" strokeWidth="1.3" />
        <circle cx="15" cy="7" r="4.5" fill="var(--ink)" />
      </>
    )
  if (of === 'heat')
    return (
      <>
        <ellipse cx="10" cy="7" rx="9" ry="6" fill="var(--need)" fillOpacity="0.2" stroke="var(--need-text)" />
        <ellipse
          cx="10"
          cy="7"
          rx="5"
          ry="3"
          fill="var(--need)"
          fillOpacity="0.3"
          stroke="var(--need-text)"
          strokeWidth="1.6"
        />
      </>
    )
  if (of === 'short')
    return (
      <>
        <rect
          x="1"
          y="1"
          width="18"
          height="12"
          rx="5"
          fill="var(--need)"
          fillOpacity="0.3"
          stroke="var(--need-text)"
        />
        <path d="M7 4 13 10M13 4 7 10" stroke="var(--ink)" strokeWidth="2" />
      </>
    )
  if (of === 'proof')
    return (
      <>
        <rect x="1" y="1" width="18" height="12" fill="none" stroke="var(--clean-text)" strokeDasharray="3 2" />
        <path d="M6 7.2 9 10 14 4" fill="none" stroke="var(--clean-text)" strokeWidth="2" />
      </>
    )
  if (of === 'reportNames')
    return (
      <>
        <rect x="1" y="1.5" width="18" height="11" rx="5.5" fill="none" stroke="var(--ink)" strokeDasharray="3 2" />
        <path d="M5 7H15" stroke="var(--ink)" strokeWidth="2" />
      </>
    )
  if (of === 'liftOrder')
    return (
      <>
        <path d="M1 7H12" stroke="var(--ink)" strokeWidth="2" strokeDasharray="3 2" />
        <circle cx="15" cy="7" r="5" fill="var(--ink)" />
      </>
    )
  return (
    <text x="1" y="11.5" fontSize="12" fontWeight="700" fill="var(--ink)">
      U1
    </text>
  )
}
