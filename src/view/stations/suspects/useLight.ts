/** Lights a thing up on the sheet while the pointer or the keyboard is in a row of a list. */
import { type RefObject, useEffect, useRef } from 'react'
import { lightUp } from './nextChecks.ts'
import type { Selection } from '../../sheet/index.ts'
import { useDesk } from '../../stores/hooks.ts'

/** @returns the ref of the row */
export function useLight(target: Selection | undefined): RefObject<HTMLLIElement | null> {
  const desk = useDesk()
  const row = useRef<HTMLLIElement>(null)
  const { kind, id } = target ?? {}
  useEffect(() => {
    const element = row.current
    if (element === null || kind === undefined || id === undefined) return undefined
    const ends = new AbortController()
    const light = (): void => lightUp(desk, { kind, id })
    const dark = (): void => lightUp(desk, undefined)
    for (const event of ['pointerenter', 'focusin']) element.addEventListener(event, light, { signal: ends.signal })
    for (const event of ['pointerleave', 'focusout']) element.addEventListener(event, dark, { signal: ends.signal })
    return () => {
      ends.abort()
      const { hovered } = desk.screen.getState()
      if (hovered?.kind === kind && hovered.id === id) dark()
    }
  }, [desk, kind, id])
  return row
}
