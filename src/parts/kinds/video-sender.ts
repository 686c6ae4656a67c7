import { videoEnd } from '../videoLink.ts';

/** Sending end of a long picture lead. */
export const videoSender = videoEnd('sender');
