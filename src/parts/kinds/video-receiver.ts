import { videoEnd } from '../videoLink.ts';

/** Receiving end of a long picture lead. */
export const videoReceiver = videoEnd('receiver');
