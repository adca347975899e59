/** A value once it has stood still for a moment, so that dear work is not done anew at every keystroke. */
import { useEffect, useState } from 'react'

export function useSettled<T>(value: T, forMs: number): T {
  const [settled, setSettled] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), forMs)
    return () => clearTimeout(timer)
  }, [value, forMs])
  return settled
}
