/** The camera that was chosen last on this machine, so that a bench with a microscope chooses it once. */
const KEY = 'liftmap-camera'

export function lastCamera(): string | undefined {
  try {
    return localStorage.getItem(KEY) ?? undefined
  } catch {
    return undefined
  }
}

export function rememberCamera(id: string): void {
  try {
    localStorage.setItem(KEY, id)
  } catch {
    // chosen again next time
  }
}
