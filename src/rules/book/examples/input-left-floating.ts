import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

const withButton = () =>
  bench().part('button', 'push-button', 'desk').wire('button.1', 'computer.29', { lengthM: 0.3 }).wire('button.2', 'computer.39', { lengthM: 0.3 });

export const example: Example = {
  flagged: () => withButton().set('computer', { gpio5Mode: 'in' }),
  clean: () => withButton(),
  inOrder: 'The pin’s own pull-up is on and holds it at 3.3 V.',
  also: ['button'],
};
