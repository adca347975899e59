/** Tells a screen reader, calmly, when the lift list has changed. */
import { counted, joined } from '../../base/index.ts'
import { useEffect, useState } from 'react'
import { useResults, useTally } from '../stores/hooks.ts'
import { percent } from '../stores/words.ts'

const CALM_MS = 1200

export function Announcer() {
  const suspects = useResults((results) => results.assessment?.suspects)
  const tested = useTally() !== undefined
  const [said, setSaid] = useState('')
  useEffect(() => {
    if (suspects === undefined || !tested) return undefined
    const timer = setTimeout(() => {
      const parts = suspects.lift.map((ref) => {
        const probability = suspects.parts.find((part) => part.ref === ref)?.probability ?? 0
        return `${ref} ${percent(probability)}`
      })
      setSaid(
        parts.length === 0
          ? 'Lift list: nothing to lift.'
          : `Lift list, ${counted(parts.length, 'part')}: ${joined(parts)}.`,
      )
    }, CALM_MS)
    return () => clearTimeout(timer)
  }, [suspects, tested])
  return (
    <p className="visually-hidden" role="status" aria-live="polite">
      {said}
    </p>
  )
}
