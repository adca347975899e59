/** How the sheet draws what became of a lane, small. */
import { useId } from 'react'
import type { LaneVerdict } from '../../../case/index.ts'
import { proofStrokes } from '../../sheet/index.ts'

export function ProofSymbol({ kind }: { readonly kind: LaneVerdict }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true" style={{ flex: 'none' }}>
      <Picture kind={kind} />
    </svg>
  )
}

const strokesPath = (kind: 'gone' | 'fresh'): string =>
  proofStrokes[kind]
    .map((stroke) => stroke.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${9 + x * 6} ${9 + y * 6}`).join(''))
    .join('')

function Picture({ kind }: { readonly kind: LaneVerdict }) {
  const pattern = useId()
  if (kind === 'clean') return <rect x="1.5" y="1.5" width="15" height="15" fill="none" stroke="var(--hairline)" />
  if (kind === 'gone')
    return (
      <>
        <rect x="1.5" y="1.5" width="15" height="15" fill="none" stroke="var(--clean-text)" strokeDasharray="3 2" />
        <path d={strokesPath('gone')} fill="none" stroke="var(--clean-text)" strokeWidth="2" />
      </>
    )
  if (kind === 'untested' || kind === 'not-told')
    return (
      <>
        <pattern id={pattern} width="4.5" height="4.5" patternUnits="userSpaceOnUse">
          <circle cx="2.2" cy="2.2" r="0.9" fill="var(--muted)" />
        </pattern>
        <rect x="1.5" y="1.5" width="15" height="15" fill={`url(#${pattern})`} stroke="var(--outline-soft)" />
        {kind === 'not-told' && (
          <>
            <circle cx="9" cy="9" r="6" fill="var(--sheet)" />
            <text x="9" y="13.3" textAnchor="middle" fontSize="12" fontWeight="700" fill="var(--ink)">
              ?
            </text>
          </>
        )}
      </>
    )
  return (
    <>
      <pattern id={pattern} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(40)">
        <path d={kind === 'fresh' ? 'M0 0V4M0 0H4' : 'M0 0V4'} stroke="var(--load)" strokeWidth="1.6" />
      </pattern>
      <rect x="1.5" y="1.5" width="15" height="15" fill={`url(#${pattern})`} stroke="var(--load)" />
      {kind === 'fresh' && (
        <>
          <circle cx="9" cy="9" r="5.5" fill="var(--sheet)" stroke="var(--load-text)" />
          <path d="M5.6 9H12.4M9 5.6V12.4" stroke="var(--load-text)" strokeWidth="1.8" />
        </>
      )}
    </>
  )
}
