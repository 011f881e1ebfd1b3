//! A scene on the window, kept from frame to frame: lines and fills as triangles, cut once and not
//! in every frame, and what the next scene has in common with it is not cut again.
//!
//! While one cockpit is pulled the others stay, and they are most of what is drawn.

use super::paint::{View, mark_shapes};
use super::strip::Disc;
use core::fmt;
use eframe::egui;
use egui::epaint::{Mesh, TessellationOptions, Tessellator};
use egui::{Painter, Rect, Shape};
use fit_view::scene::{LayerName, Mark, Scene, Theme};
use std::sync::Arc;

/// How far from where it stood before a mark is looked for: as many as a cockpit adds or takes away
/// (judgement; one that is not found is cut again).
const NEAR: usize = 60;

/// Where and how a scene is drawn; as long as it stays, so do the triangles.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    view: View,
    theme: Theme,
    pixels_per_point: f32,
    atlas: [usize; 2],
}

/// One mark of the scene, and what is drawn of it.
#[derive(Debug)]
struct Piece {
    layer: LayerName,
    mark: Mark,
    mesh: Arc<Mesh>,
    texts: Vec<Shape>,
}

/// What is drawn of a scene.
pub(super) struct Painted {
    place: Place,
    pieces: Vec<Piece>,
    cutter: Cutter,
}

impl fmt::Debug for Painted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { place, pieces, .. } = self;
        f.debug_struct("Painted").field("place", place).field("pieces", pieces).finish()
    }
}

impl Painted {
    /// The scene, with what `before` has of it taken over.
    pub(super) fn new(
        scene: Scene,
        view: &View,
        theme: Theme,
        painter: &Painter,
        before: Option<Self>,
    ) -> Self {
        let place = Place {
            view: *view,
            theme,
            pixels_per_point: painter.pixels_per_point(),
            atlas: atlas(painter.ctx()),
        };
        let (before, mut cutter) = match before.filter(|b| b.place == place) {
            Some(before) => (before.pieces, before.cutter),
            None => (Vec::new(), Cutter::new(&place, painter.ctx())),
        };
        let mut before: Vec<Option<Piece>> = before.into_iter().map(Some).collect();
        let mut next = 0;
        let marks = scene
            .layers
            .into_iter()
            .flat_map(|layer| layer.marks.into_iter().map(move |mark| (layer.name, mark)));
        let pieces = marks.map(|(layer, mark)| {
            let is_same =
                |p: &Option<Piece>| p.as_ref().is_some_and(|p| p.layer == layer && p.mark == mark);
            // mostly the next one; else near it
            let is_there = |at: &usize| before.get(*at).is_some_and(is_same);
            let near = (0..=NEAR).flat_map(|off| [next + off, next.saturating_sub(off)]);
            let same = near.into_iter().find(is_there);
            // one that is another now stands where it stood before
            next = same.unwrap_or(next) + 1;
            let kept = same.and_then(|at| before[at].take());
            kept.unwrap_or_else(|| cutter.piece(layer, mark, &place, painter))
        });
        let pieces: Vec<Piece> = pieces.collect();
        Self { place, pieces, cutter }
    }

    /// The painter is given all lines and fills, which the frame joins to one mesh, then the texts. They
    /// lie in clips of their own, so that the mesh is not copied again for every text that is added to
    /// it.
    pub(super) fn paint(&self, painter: &Painter, clip: Rect) {
        let meshes = self.pieces.iter().map(|piece| &piece.mesh).filter(|mesh| !mesh.is_empty());
        let shapes = meshes.map(|mesh| Shape::Mesh(Arc::clone(mesh)));
        painter.with_clip_rect(clip).extend(shapes);
        let texts = self.pieces.iter().flat_map(|piece| piece.texts.iter().cloned());
        painter.with_clip_rect(clip.shrink(1.0)).extend(texts);
    }

    /// What is written, and where.
    pub(super) fn texts(&self) -> impl Iterator<Item = (&str, Rect)> {
        let written = self.pieces.iter().filter_map(|piece| match &piece.mark {
            Mark::Text { text, .. } => Some((text.as_str(), piece.texts.first()?)),
            _ => None,
        });
        let written = written.map(|(text, shape)| (text, shape.visual_bounding_rect()));
        written.filter(|(_, place)| place.is_positive())
    }

    /// It was drawn with the texture of the letters as it was before it grew.
    pub(super) fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.place.atlas != atlas(ctx)
    }
}

/// The size of the texture of the letters, which grows with them and is begun anew when it is full.
/// Kept meshes name places in it by their share of that size.
#[expect(
    clippy::redundant_closure_for_method_calls,
    reason = "its lifetime is not general enough without"
)]
fn atlas(ctx: &egui::Context) -> [usize; 2] {
    ctx.fonts(|fonts| fonts.font_image_size())
}

/// Cuts lines and fills as the frame would.
struct Cutter {
    tessellator: Tessellator,
    discs: Vec<Disc>,
}

impl Cutter {
    fn new(place: &Place, ctx: &egui::Context) -> Self {
        // circles are rare: the pictures of discs are for dashes
        let options = TessellationOptions {
            prerasterized_discs: false,
            ..ctx.tessellation_options(|options| *options)
        };
        let per_point = place.pixels_per_point;
        let mut tessellator = Tessellator::new(per_point, options, place.atlas, Vec::new());
        tessellator.set_clip_rect(place.view.frame);
        Self { tessellator, discs: Disc::all(place.atlas, ctx) }
    }

    /// All of a mark that is not text as one mesh. Of one mark text comes last.
    fn piece(&mut self, layer: LayerName, mark: Mark, place: &Place, painter: &Painter) -> Piece {
        let mut shapes = Vec::new();
        let label = layer == LayerName::Labels;
        let (view, theme) = (&place.view, place.theme);
        mark_shapes(&mark, label, view, theme, painter, &self.discs, &mut shapes);
        let (texts, other): (Vec<_>, Vec<_>) =
            shapes.into_iter().partition(|shape| matches!(shape, Shape::Text(_)));
        let mut mesh = Mesh::default();
        for shape in other {
            self.tessellator.tessellate_shape(shape, &mut mesh);
        }
        Piece { layer, mark, mesh: Arc::new(mesh), texts }
    }
}
