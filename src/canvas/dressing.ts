import type { Box } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { PictureOptions } from '../scene/picture.ts';
import type { Scene } from '../scene/types.ts';
import { shownAnalysis } from '../state/shown.ts';
import { overlayOf } from '../state/since.ts';
import type { AppState } from '../state/types.ts';
import { type FigureLabel, figureLabelOf, figureLabels } from './figureLabels.ts';
import { type WireFigures, wireFigures } from './figures.ts';
import { type InkTable, inkTable, readColours } from './inks.ts';
import { type Mark, marksOf } from './marks.ts';
import type { Painter } from './painter.ts';
import { paintScene, type Standing } from './paintScene.ts';
import { SceneIndex } from './sceneIndex.ts';

/** What the scene is dressed with when it is painted: inks, figures along wires, marks of findings, units of lengths. */
export class Dressing {
  inks: InkTable = inkTable(() => '');
  private options: PictureOptions = {};
  private marks: readonly Mark[] = [];
  private figures: readonly FigureLabel[] = [];
  private byWire: ReadonlyMap<Id, WireFigures> = new Map();

  /** Reads the colours of the page as they are now. */
  readInks(root: HTMLElement, state: AppState): void {
    this.inks = inkTable(readColours(root));
    this.readOptions(state);
  }

  readOptions({ units }: AppState): void {
    const feet = units.length === 'ft';
    this.options = { edged: this.inks.edged, ...(feet ? { lengthText: (m: number) => `${(m / 0.3048).toFixed(1)} ft` } : {}) };
  }

  refreshMarks({ results }: AppState): void {
    this.marks = marksOf(results ? results.report.cards.flatMap((c) => c.findings) : []);
  }

  refreshFigures(state: AppState, scene: Scene | null): void {
    const { plan, results, resultsFor, keyPosition, band, showFigures } = state;
    const analysis = shownAnalysis(state);
    // Figures of another plan than the one drawn would be wrong, not old.
    this.byWire = plan && results && analysis && resultsFor === plan ? wireFigures(results.filled, analysis, keyPosition, band) : new Map();
    this.figures = showFigures && scene ? figureLabels(scene, this.byWire, this.marks) : [];
  }

  /** Figures of chosen wires that bear none already. */
  figuresOfChosen(scene: Scene, { selection, showFigures }: AppState, hidden: ReadonlySet<Id>): FigureLabel[] {
    const shown = new Set(showFigures ? this.figures.map((f) => f.wire) : []);
    return selection.wires.flatMap((id) => {
      const wire = scene.wires.get(id);
      const f = this.byWire.get(id);
      const label = wire && f && !shown.has(id) && !hidden.has(id) ? figureLabelOf(wire, f) : null;
      return label ? [label] : [];
    });
  }

  /** Paints what stands still, or what has changed since a revision where that is asked for. */
  paint(painter: Painter, drawn: Pick<Standing, 'scene' | 'index' | 'hidden'>, state: AppState, box: Box, zoom: number): void {
    const { options, marks } = this;
    const changes = overlayOf(drawn.scene);
    if (changes) {
      const quiet = { hidden: drawn.hidden, figures: [], marks: [], todo: {}, options };
      paintScene(painter, { scene: changes.drawn, index: indexOf(changes.drawn), ...quiet }, box, zoom);
      painter.all(changes.over);
      return;
    }
    const figures = state.showFigures ? this.figures : [];
    paintScene(painter, { ...drawn, figures, marks, todo: state.results?.report?.todo ?? {}, options }, box, zoom);
  }
}

/** Indexes of scenes that are only painted, never touched. */
const indexes = new WeakMap<Scene, SceneIndex>();
function indexOf(scene: Scene): SceneIndex {
  const index = indexes.get(scene) ?? new SceneIndex(scene);
  indexes.set(scene, index);
  return index;
}
