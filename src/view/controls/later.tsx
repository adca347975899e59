/** Components that are loaded when they are first shown, or before, while nothing else is to be done. */
import { type ComponentType, createElement, type ReactNode, useEffect, useState } from 'react'
import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'

export interface LoadedLater<Props> {
  (props: Props): ReactNode
  /** Loads it ahead of time; shown after that, it is there at once. */
  readonly load: () => Promise<void>
}

interface Brought<Props> {
  readonly component?: ComponentType<Props>
  readonly failure?: unknown
}

/**
 * Nothing is drawn while it is loading; what can't be loaded breaks where it is drawn, and the boundary there says so.
 * @param bring what imports the component; asked once
 */
export function later<Props extends object>(bring: () => Promise<ComponentType<Props>>): LoadedLater<Props> {
  const brought = createStore<Brought<Props>>(() => ({}))
  let loading: Promise<void> | undefined
  const load = (): Promise<void> =>
    (loading ??= bring().then(
      (component) => brought.setState({ component }),
      (failure: unknown) => brought.setState({ failure }),
    ))
  function Later(props: Props) {
    const { component, failure } = useStore(brought)
    useEffect(() => void load(), [])
    if (failure !== undefined) throw failure
    return component === undefined ? undefined : createElement(component, props)
  }
  return Object.assign(Later, { load })
}

/** Draws what is inside from the first time on that it is open: a dialog that nobody opens is never loaded. */
export function OnceOpen({ open, children }: { readonly open: boolean; readonly children: ReactNode }) {
  const [wasOpen, setWasOpen] = useState(open)
  if (open && !wasOpen) setWasOpen(true)
  return wasOpen || open ? children : undefined
}
