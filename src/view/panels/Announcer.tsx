/** Tells a screen reader, calmly, what was done, how the lift list changed, and what a tool that was taken up does. */
import { joined, say } from '../../base/index.ts'
import { useEffect, useState } from 'react'
import { useActWords } from '../stores/actStore.ts'
import { useResults, useScreen, useTally } from '../stores/hooks.ts'
import { percent } from '../stores/words.ts'
import type { SuspectsResult } from '../../suspects/index.ts'
import { useHint } from './useHint.ts'

const CALM_MS = 1200

export function Announcer() {
  const suspects = useResults((results) => results.assessment?.suspects)
  const tested = useTally() !== undefined
  const act = useActWords()
  const tool = useScreen((screen) => screen.tool)
  const hint = useHint()
  const [said, setSaid] = useState('')
  useEffect(() => {
    const list = suspects === undefined || !tested ? '' : liftWords(suspects)
    const words = [act, list].filter(Boolean).join(' ')
    if (words === '') return undefined
    const timer = setTimeout(() => setSaid(words), CALM_MS)
    return () => clearTimeout(timer)
  }, [act, suspects, tested])
  return (
    <>
      <p className="visually-hidden" role="status" aria-live="polite">
        {said}
      </p>
      <p className="visually-hidden" role="status" aria-live="polite">
        {tool === 'select' ? '' : hint}
      </p>
    </>
  )
}

function liftWords({ lift, parts }: SuspectsResult): string {
  const listed = lift.map((ref) => {
    const comesOff = parts.find((part) => part.ref === ref)?.comesOff ?? 0
    return `${ref} ${percent(comesOff)}`
  })
  return listed.length === 0
    ? say('Lift list: nothing to lift.')
    : say('Lift list, {length, plural, one {# part} other {# parts}}: {listed}.', {
        length: listed.length,
        listed: joined(listed),
      })
}
