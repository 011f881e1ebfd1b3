//! Shapes that flow into each other: all contours first, then all insides, so that a contour shows
//! only where it is the outline of the whole.

use crate::scene::{Ink, Mark, Path, Pen};

/// One ink for the contour, one for the inside.
#[derive(Debug, Clone, Copy)]
pub(super) struct Coat {
    /// Ink of the contour.
    pub(super) contour: Ink,
    /// Ink of the inside.
    pub(super) inside: Ink,
}

/// The shapes as one part.
pub(super) fn part(paths: &[Path], coat: Coat) -> Vec<Mark> {
    let pen = Pen::solid(coat.contour, 2.2);
    let contours = paths.iter().map(|path| Mark::Stroke { path: path.clone(), pen });
    let insides =
        paths.iter().map(|path| Mark::Fill { path: path.clone(), ink: coat.inside, opacity: 1.0 });
    contours.chain(insides).collect()
}
