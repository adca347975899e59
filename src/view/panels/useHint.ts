/** What the hand can do now, as the status line says it. */
import { useSyncExternalStore } from 'react'
import { hintOf } from '../stores/hints.ts'
import { useScreen } from '../stores/hooks.ts'
import { useTools } from '../stores/toolStore.ts'

const COARSE = '(pointer: coarse)'

function followPointer(changed: () => void): () => void {
  const query = window.matchMedia(COARSE)
  query.addEventListener('change', changed)
  return () => query.removeEventListener('change', changed)
}

export function useHint(): string {
  const tool = useScreen((screen) => screen.tool)
  const painting = useScreen((screen) => screen.painting)
  const selection = useScreen((screen) => screen.selection)
  const isNaming = useScreen((screen) => screen.naming.held !== undefined)
  const isLocked = useTools((tools) => tools.isLocked)
  const isCoarse = useSyncExternalStore(followPointer, () => window.matchMedia(COARSE).matches)
  return hintOf({ tool, painting, selection, isNaming, isLocked, isCoarse })
}
