/** A case that broke the page: it is never opened again by itself, only by hand. */
import type { Desk } from '../stores/desk.ts'
import { openDemo } from './open.ts'

const KEY = 'liftmap broken case'
const CORNER = { x: 40, y: 80 }

/** The case on the desk broke what was drawn. */
export function noteBroken(desk: Desk): void {
  const { id } = desk.cases.getState()
  if (id === undefined) return
  try {
    localStorage.setItem(KEY, id)
  } catch {
    // without storage nothing is opened again anyway
  }
}

export function isBroken(id: string): boolean {
  try {
    return localStorage.getItem(KEY) === id
  } catch {
    return false
  }
}

/** Somebody opened a case by hand: whether it breaks is found out anew. */
export function forgetBroken(): void {
  try {
    localStorage.removeItem(KEY)
  } catch {
    // as above
  }
}

/** Puts the first demo on the desk in place of the case that breaks. */
export async function openWithout(desk: Desk): Promise<void> {
  const first = desk.shelf.cases[0]
  if (first !== undefined) await openDemo(desk, first.name, CORNER)
}
