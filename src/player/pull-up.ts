/** Panels that open above their button: Escape and a press elsewhere close them, and only one is open at a time. */
export function closePullUps(root: HTMLElement): void {
  const panels = (): readonly HTMLDetailsElement[] => [
    ...root.querySelectorAll<HTMLDetailsElement>('details.pull-up[open]'),
  ];
  root.addEventListener('keydown', event => {
    if (event.key !== 'Escape' || !(event.target instanceof Element)) return;
    const panel = event.target.closest<HTMLDetailsElement>('details.pull-up[open]');
    if (panel === null) return;
    panel.open = false;
    panel.querySelector('summary')?.focus();
  });
  document.addEventListener('pointerdown', event => {
    for (const panel of panels())
      if (event.target instanceof Node && !panel.contains(event.target)) panel.open = false;
  });
  root.addEventListener(
    'toggle',
    event => {
      for (const panel of panels())
        if (
          event.target instanceof HTMLDetailsElement &&
          event.target.open &&
          event.target.matches('.pull-up') &&
          panel !== event.target
        )
          panel.open = false;
    },
    true,
  );
}
