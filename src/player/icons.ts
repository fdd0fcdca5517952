import { svg } from './dom.js';

/** Shapes on a field of 24 by 24. They stand beside words or carry a label, so they are hidden from those who hear the page. */
const shapes = {
  play: 'M7 4.5v15l12.5-7.5z',
  pause: 'M7 5h3.6v14H7zM13.4 5H17v14h-3.6z',
  next: 'M5 5v14l9.5-7zM16.5 5H19v14h-2.5z',
  previous: 'M19 5v14l-9.5-7zM5 5h2.5v14H5z',
  again: 'M12 4.500V1.200L6.800 5.700l5.200 4.500V7a5.500 5.500 0 1 1-5.300 7H4.100A8 8 0 1 0 12 4.500z',
  holds: 'M9.6 19 3.4 12.4l2-2 4.2 4.3 9-10 2.1 2z',
  arguable:
    'M3 10.5c3.5-4.5 7-3 9-1.5s5 3 8.5-1.3v3.5c-3.500 4.200-6.800 3-9 1.500s-5.200-2.800-8.500 1.500zm0 7c3.500-4.500 7-3 9-1.500s5 3 8.500-1.300v3.500c-3.500 4.200-6.800 3-9 1.500s-5.200-2.800-8.500 1.500z',
  undecided:
    'M7 8.500C7 5.200 9.300 3.500 12.200 3.500S17.500 5.300 17.500 8.200c0 3.600-3.800 3.900-3.800 6.800h-3c0-4.100 3.600-4.400 3.600-6.700 0-1.200-.8-2-2.100-2s-2.100.9-2.100 2.200zM10.600 17h3.200v3.300h-3.200z',
  fails:
    'm5.800 3.800 6.200 6.200 6.200-6.200 2 2-6.200 6.200 6.200 6.200-2 2-6.200-6.200-6.200 6.200-2-2L10 12 3.800 5.800z',
} as const;

export type Icon = keyof typeof shapes;

export const icon = (name: Icon): SVGSVGElement =>
  svg(
    'svg',
    { class: 'icon', viewBox: '0 0 24 24', 'aria-hidden': 'true', focusable: 'false' },
    svg('path', { d: shapes[name] }),
  );
