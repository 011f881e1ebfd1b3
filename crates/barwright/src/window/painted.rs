//! A scene on the window, kept from frame to frame: lines and fills as triangles, cut once and not
//! in every frame, and what the next scene has in common with it is not cut again.
//!
//! While one cockpit is pulled the others stay, and they are most of what is drawn.

use super::paint::{View, mark_shapes};
use eframe::egui;
use egui::epaint::{Mesh, TessellationOptions, Tessellator};
use egui::{Painter, Shape};
use fit_view::scene::{LayerName, Mark, Scene, Theme};

/// Where and how a scene is drawn; as long as it stays, so do the triangles.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    view: View,
    theme: Theme,
    pixels_per_point: f32,
}

/// One mark of the scene, and what is drawn of it.
#[derive(Debug)]
struct Piece {
    layer: LayerName,
    mark: Mark,
    shapes: Vec<Shape>,
}

/// What is drawn of a scene.
#[derive(Debug)]
pub(super) struct Painted {
    place: Place,
    pieces: Vec<Piece>,
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
        let place = Place { view: *view, theme, pixels_per_point: painter.pixels_per_point() };
        let mut before = before.filter(|b| b.place == place).map_or_else(Vec::new, |b| b.pieces);
        let mut cutter = cutter(&place, painter);
        let marks = scene
            .layers
            .into_iter()
            .flat_map(|layer| layer.marks.into_iter().map(move |mark| (layer.name, mark)));
        let pieces = marks.map(|(layer, mark)| {
            if let Some(same) = before.iter().position(|p| p.layer == layer && p.mark == mark) {
                return before.swap_remove(same);
            }
            let mut shapes = Vec::new();
            mark_shapes(&mark, layer == LayerName::Labels, view, theme, painter, &mut shapes);
            Piece { layer, mark, shapes: cut(shapes, &mut cutter) }
        });
        let pieces = pieces.collect();
        Self { place, pieces }
    }

    /// What the painter is given.
    pub(super) fn shapes(&self) -> impl Iterator<Item = Shape> {
        self.pieces.iter().flat_map(|piece| piece.shapes.iter().cloned())
    }
}

/// Cuts lines and fills as the frame would. Circles are cut like everything else: pictures of them
/// lie in the texture of the letters, which may be made anew under a mesh that is kept.
fn cutter(place: &Place, painter: &Painter) -> Tessellator {
    let options = TessellationOptions {
        prerasterized_discs: false,
        ..painter.ctx().tessellation_options(|options| *options)
    };
    let mut cutter = Tessellator::new(place.pixels_per_point, options, [1, 1], Vec::new());
    cutter.set_clip_rect(place.view.frame);
    cutter
}

/// The same with all that is not text as one mesh. Of one mark text comes last.
fn cut(shapes: Vec<Shape>, cutter: &mut Tessellator) -> Vec<Shape> {
    let (text, other): (Vec<_>, Vec<_>) =
        shapes.into_iter().partition(|shape| matches!(shape, Shape::Text(_)));
    let mut mesh = Mesh::default();
    for shape in other {
        cutter.tessellate_shape(shape, &mut mesh);
    }
    let mesh = (!mesh.is_empty()).then(|| Shape::mesh(mesh));
    mesh.into_iter().chain(text).collect()
}
