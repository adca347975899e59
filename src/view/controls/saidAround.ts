/** A sentence that holds elements of the screen, such as a figure that can be pressed, in the order of its language. */
import { createElement, Fragment, type ReactElement, type ReactNode } from 'react'
import { sayParts } from '../../base/index.ts'

/** @param message as that of `say`; its values may be elements */
export const saidAround = (message: string, values: Readonly<Record<string, ReactNode>>): ReactElement =>
  createElement(Fragment, null, ...sayParts<ReactNode>(message, values))
