//! The side view: every cockpit on its bike with the rider holding one of them; and the same
//! cockpits from the front and from above.
//!
//! Bike frame, mm, true to scale. [`cockpits_scene`] is the close look at bars and hands whichever
//! way they are looked at ([`Sight`]), [`rider_scene`] the whole rider on the whole bike.

mod across;
mod bike;
mod cockpit;
mod figure;
mod handles;
mod hands;
mod kept;
mod labels;
mod measure;
mod part;
mod sight;
mod spot;
mod taped;

use crate::scene::{Ink, Layer, LayerName, Mark, Path, Pen, Scene, Series, Window};
use fit_doc::{Frame, Saddle};
use fit_math::cockpit::Cockpit;
use fit_math::{DVec2, HandPlace};

use cockpit::{Line, Weight};
pub use figure::{Flesh, RiderFigure};
pub use fit_math::cockpit::Hold;
pub use handles::{Handle, handles, pulled};
pub use hands::Hands;
pub use kept::KeptShapes;
pub use measure::{Measure, MeasureKind, Measured, measures, nearest_line, travel};
pub use sight::Sight;
pub use taped::taped_scene;

/// Distance between the lines of the ground, mm.
pub const SQUARE_MM: f64 = 100.0;

/// Of the points of lines that small labels keep clear of every so many-th is looked at.
const EVERY: usize = 4;

/// One cockpit with the rider on it.
#[derive(Debug, Clone)]
pub struct SideCockpit<'a> {
    /// Short name, the direct label of its lines.
    pub label: String,
    /// What that says where its lines lie on those of another one: in full, then shorter.
    pub on_line_of: Vec<String>,
    /// Colour and dash of its lines: its place on the bench, also where not all of it is shown.
    pub series: Series,
    /// The cockpit.
    pub cockpit: &'a Cockpit,
    /// Its saddle.
    pub saddle: &'a Saddle,
    /// Where the rider sits on it.
    pub sit: DVec2,
    /// The rider holding the chosen place; none where the cockpit has no such place.
    pub rider: Option<RiderFigure>,
    /// What is said of it in the text twin, a sentence each.
    pub twin: Vec<String>,
}

/// What a side view shows.
#[derive(Debug, Clone)]
pub struct SideView<'a> {
    /// The bike.
    pub frame: &'a Frame,
    /// The cockpits, as it came first.
    pub cockpits: Vec<SideCockpit<'a>>,
    /// Which cockpit is spoken of and carries the rider.
    pub focus: usize,
    /// Where the rider's hands are.
    pub place: HandPlace,
    /// Whether hands are marked there or in every place.
    pub hands: Hands,
    /// What the places are called, in the order of [`HandPlace::ALL`].
    pub place_names: [&'static str; HandPlace::COUNT],
    /// Points of the cockpit that is spoken of that are drawn over the scene, to be pulled: labels
    /// keep clear of them.
    pub handles: Vec<DVec2>,
    /// Left end of the room for labels where something is drawn over the scene there; else they may
    /// begin at the edge of its window.
    pub labels_from_mm: Option<f64>,
    /// Only what is measured, spoken of or compared with is named in the drawing: what the measures say
    /// needs the room.
    pub few_names: bool,
    /// The part of its window over which nothing else is drawn: small labels stand there. None: all
    /// of it.
    pub free: Option<Window>,
    /// Which point of all cockpits is laid over each other.
    pub hold: Hold,
    /// First sentence of the text twin.
    pub headline: String,
    /// Which way the cockpits are looked at.
    pub sight: Sight,
    /// How broad the client's shoulders are, mm, and what is said of it; shown where left and right
    /// are.
    pub shoulders: Option<(f64, String)>,
    /// What the two hands are called: left, right.
    pub hand_names: [&'static str; 2],
    /// Lengths and ways that are drawn with what they say, each with its cockpit's place on the
    /// bench.
    pub measures: Vec<(usize, Measure)>,
    /// How far chance takes the hands of the cockpit that is spoken of, to the right and upwards in the
    /// picture and as far the other way, mm; nought where that is not drawn.
    pub within: DVec2,
}

impl SideCockpit<'_> {
    /// Its label: of what there is to say as much as fits, its name at least.
    pub fn label_in(&self, fits: impl Fn(&str) -> bool) -> &str {
        let said = self.on_line_of.iter().map(String::as_str);
        said.chain([self.label.as_str()]).find(|text| fits(text)).unwrap_or(&self.label)
    }
}

impl SideView<'_> {
    /// Colour and dash of a cockpit of this view.
    fn series(&self, index: usize) -> Series {
        self.cockpits.get(index).map_or(Series(index), |of| of.series)
    }

    fn reference(&self) -> Option<&SideCockpit<'_>> {
        self.cockpits.first()
    }

    fn spoken_of(&self) -> Option<&SideCockpit<'_>> {
        self.cockpits.get(self.focus).or_else(|| self.reference())
    }

    fn shift(&self, cockpit: &Cockpit) -> DVec2 {
        self.reference().map_or(DVec2::ZERO, |r| self.hold.shift(r.cockpit, cockpit))
    }

    /// How far a cockpit is moved in the picture.
    fn flat_shift(&self, cockpit: &Cockpit) -> DVec2 {
        self.sight.of_plane(self.shift(cockpit))
    }

    /// Of each cockpit the first one of the bench whose lines its own lie on, so that one hides the
    /// other.
    pub fn on_lines_of(&self) -> Vec<Option<usize>> {
        let all = || self.cockpits.iter().map(|c| (c.cockpit, self.shift(c.cockpit)));
        if self.sight != Sight::Side {
            let hides = |other, of| across::on_one_line(self.sight, other, of);
            let first = |(index, of)| all().take(index).position(|other| hides(other, of));
            return all().enumerate().map(first).collect();
        }
        let lines: Vec<_> = all().map(|(cockpit, shift)| Line::of(cockpit, shift)).collect();
        let first =
            |(index, of): (usize, &Line<'_>)| lines[..index].iter().position(|o| o.hides(of));
        lines.iter().enumerate().map(first).collect()
    }

    fn weight(&self, index: usize) -> Weight {
        match index {
            _ if index == self.focus => Weight::Focus,
            0 => Weight::Before,
            _ => Weight::Beside,
        }
    }

    /// What is shown in words, a sentence a line.
    pub fn twin(&self) -> Vec<String> {
        let sentences = self.cockpits.iter().flat_map(|c| c.twin.iter().cloned());
        let shoulders = self.shoulders.iter().filter(|_| self.sight.has_two_sides());
        let mut twin = vec![self.headline.clone()];
        twin.extend(shoulders.map(|(_, said)| said.clone()));
        twin.extend(sentences);
        twin
    }

    /// Frame, wheels and, where asked, the saddle of the cockpit that is spoken of.
    fn bike_marks(&self) -> Vec<Mark> {
        let Some(focus) = self.spoken_of() else { return Vec::new() };
        let mut marks = bike::frame_marks(self.frame, focus.cockpit.front());
        marks.extend(bike::saddle_marks(
            self.frame,
            focus.cockpit.front(),
            focus.saddle,
            focus.sit,
        ));
        if let Some(rider) = &focus.rider {
            let leg = rider.figure.leg(fit_math::frame::Side::Right);
            marks.extend(bike::crank_marks(leg.spindle));
        }
        marks
    }

    /// The rider on the bike, furthest back first.
    fn rider_on_bike(&self) -> Vec<Layer> {
        let rider = self.spoken_of().and_then(|c| c.rider.as_ref());
        let of = |draw: fn(&RiderFigure) -> Vec<Mark>| rider.map_or_else(Vec::new, draw);
        [
            (LayerName::RiderBefore, self.rider_before()),
            (LayerName::RiderFar, of(RiderFigure::far_leg)),
            (LayerName::Bike, self.bike_marks()),
            (LayerName::Rider, of(RiderFigure::near_body)),
        ]
        .map(|(name, marks)| Layer { name, marks })
        .into()
    }

    /// The fist of the rider, drawn one way or the other; none where nobody holds the place.
    fn fist(&self, draw: fn(&RiderFigure, DVec2) -> Vec<Mark>) -> Option<Vec<Mark>> {
        self.held_by(self.spoken_of()?).map(|(rider, axis)| draw(rider, axis))
    }

    /// The rider on a cockpit, and which way the grip in the right hand runs in the side view.
    fn held_by<'c>(&self, of: &'c SideCockpit<'_>) -> Option<(&'c RiderFigure, DVec2)> {
        let grip = of.cockpit.grips(self.place)?.right;
        Some((of.rider.as_ref()?, grip.axis.truncate()))
    }

    /// Behind: the rider as it came, where another cockpit is spoken of.
    fn rider_before(&self) -> Vec<Mark> {
        let before = self.reference().filter(|_| self.focus != 0);
        before
            .and_then(|c| self.held_by(c))
            .map_or_else(Vec::new, |(rider, axis)| rider.shadow(axis))
    }
}

/// The close look: all cockpits laid over each other with direct labels, the rider's arms and
/// trunk behind them.
///
/// `mm_per_point` is the scale it will be shown at: labels are placed so that none collide there.
pub fn cockpits_scene(view: &SideView<'_>, window: Window, mm_per_point: f64) -> Scene {
    let rider = view.rider_on_bike();
    close_look(view, window, mm_per_point, &mut KeptShapes::default(), rider)
}

/// [`cockpits_scene`] and [`rider_scene`] of one view, with those shapes taken over that are still
/// right.
pub fn both_scenes(
    view: &SideView<'_>,
    window: Window,
    mm_per_point: f64,
    kept: &mut KeptShapes,
) -> (Scene, Scene) {
    let rider = view.rider_on_bike();
    (close_look(view, window, mm_per_point, kept, rider.clone()), whole_rider(view, rider))
}

/// The close look; `rider` is the rider on the bike where it really is.
fn close_look(
    view: &SideView<'_>,
    window: Window,
    mm_per_point: f64,
    kept: &mut KeptShapes,
    rider: Vec<Layer>,
) -> Scene {
    for (index, c) in view.cockpits.iter().enumerate() {
        let weight = view.weight(index);
        let shift = view.shift(c.cockpit);
        // of equal stems one is drawn: that of the cockpit that is spoken of, or else the first
        let drawn = view.cockpits[..index].iter().chain(view.spoken_of());
        let own_stem =
            weight == Weight::Focus || !drawn.into_iter().any(|d| same_stem(d.cockpit, c.cockpit));
        let series = view.series(index);
        let of = kept::Of { cockpit: c.cockpit.clone(), weight, shift, with_stem: own_stem };
        kept.keep(index, of, || match view.sight {
            Sight::Side => cockpit::shape(c.cockpit, series, weight, shift, own_stem),
            sight => across::shape(sight, c.cockpit, series, weight, shift, own_stem),
        });
    }
    let all = 0..view.cockpits.len();
    let mut shapes: Vec<_> = all.filter_map(|index| Some((index, kept.shape(index)?))).collect();
    // the one that is spoken of lies on top
    shapes.sort_by_key(|(index, _)| (view.weight(*index) != Weight::Beside, *index == view.focus));
    let is_measured =
        |index: usize| index == view.focus || view.measures.iter().any(|(of, _)| *of == index);
    let named = |index: usize| !view.few_names || index == 0 || is_measured(index);
    let wanted: Vec<labels::Wanted<'_>> = shapes
        .iter()
        .filter(|(index, _)| named(*index))
        .map(|(index, shape)| labels::Wanted {
            of: &view.cockpits[*index],
            ink: Ink::Series(view.series(*index)),
            tail: &shape.tail,
            place: *index,
            stays: *index == 0 || *index == view.focus,
        })
        .collect();
    let label_marks = labels::beside_the_tails(&wanted, view, &window, mm_per_point);
    let mut layers = vec![Layer { name: LayerName::Grid, marks: grid(&window) }];
    let held = view.spoken_of().map_or(DVec2::ZERO, |c| view.shift(c.cockpit));
    let mut hands = Vec::new();
    if view.sight == Sight::Side {
        layers.extend(rider);
        let fist = |draw: fn(&RiderFigure, DVec2) -> Vec<Mark>| {
            view.fist(draw).map_or_else(Vec::new, |marks| moved(marks, held))
        };
        // the rider goes with the one that is held
        if let Some(rider) = layers.iter_mut().find(|layer| layer.name == LayerName::Rider) {
            rider.marks = moved(core::mem::take(&mut rider.marks), held);
            rider.marks.extend(fist(RiderFigure::fist));
        }
        hands.extend(fist(RiderFigure::fist_lines));
    } else {
        layers.extend(across::rider_on_bike(view));
        hands.extend(across::fists(view));
    }
    hands.extend(hands::marks(view));
    // some of the points tell well enough where lines are
    let mut lines: Vec<DVec2> =
        shapes.iter().flat_map(|(_, shape)| shape.extent()).step_by(EVERY).collect();
    lines.extend(hands::whiskers(view).into_iter().flatten());
    let places = hands::labels(view, &label_marks, &lines, &window, mm_per_point);
    let label_marks: Vec<Mark> = label_marks.into_iter().chain(places).collect();
    let measured = measure::marks(view, &label_marks, &lines, &window, mm_per_point);
    layers.extend([
        Layer {
            name: LayerName::Cockpits,
            marks: shapes.iter().flat_map(|(_, shape)| shape.marks.clone()).collect(),
        },
        Layer { name: LayerName::Hands, marks: hands },
        Layer { name: LayerName::Labels, marks: label_marks.into_iter().chain(measured).collect() },
    ]);
    Scene { window, layers, twin: view.twin() }
}

/// The whole rider on the whole bike, with the cockpit that is spoken of and the one as it came,
/// both where they really are.
pub fn rider_scene(view: &SideView<'_>) -> Scene {
    whole_rider(view, view.rider_on_bike())
}

/// The same; `layers` are the rider on the bike.
fn whole_rider(view: &SideView<'_>, mut layers: Vec<Layer>) -> Scene {
    let mut cockpits = Vec::new();
    let shown = if view.focus == 0 { vec![0] } else { vec![0, view.focus] };
    for index in shown {
        if let Some(c) = view.cockpits.get(index) {
            cockpits.extend(cockpit::thin(c.cockpit, view.series(index)));
        }
    }
    layers.push(Layer { name: LayerName::Cockpits, marks: cockpits });
    let fist = view.fist(RiderFigure::fist).unwrap_or_default();
    layers.push(Layer { name: LayerName::Hands, marks: fist });
    Scene { window: whole_bike(view), layers, twin: Vec::new() }
}

/// The window that just holds wheels, helmet and saddle, with a margin.
fn whole_bike(view: &SideView<'_>) -> Window {
    const MARGIN_MM: f64 = 45.0;
    let Some(focus) = view.spoken_of() else {
        return Window { least: DVec2::ZERO, most: DVec2::ONE };
    };
    let points = bike::frame_points(view.frame, focus.cockpit.front());
    let wheel = DVec2::splat(view.frame.wheel_radius_mm);
    let crowns = view.cockpits.iter().filter_map(|c| c.rider.as_ref());
    let top = crowns
        .map(|r| r.figure.crown.y)
        .fold(focus.cockpit.clamp().y.max(focus.sit.y) + 80.0, f64::max);
    let margin = DVec2::splat(MARGIN_MM);
    Window {
        least: points.rear_axle.min(points.front_axle) - wheel - margin,
        most: DVec2::new((points.front_axle + wheel).x, top + 30.0) + margin,
    }
}

/// The window for the close look: all cockpits, with room for labels behind the tails and for the
/// arms above.
pub fn close_window(view: &SideView<'_>, width_to_height: f64) -> Window {
    /// Room behind and below, before and above, mm: for labels and arms (judgement).
    const SIDE_MM: [(f64, f64); 2] = [(170.0, 55.0), (60.0, 95.0)];
    /// The same at the left and below, the right and above: for labels and measures (judgement).
    const ACROSS_MM: [(f64, f64); 2] = [(215.0, 60.0), (85.0, 66.0)];
    let mut least = DVec2::splat(f64::INFINITY);
    let mut most = DVec2::splat(f64::NEG_INFINITY);
    for c in &view.cockpits {
        let shift = view.shift(c.cockpit);
        let shape = match view.sight {
            Sight::Side => cockpit::shape(c.cockpit, Series(0), Weight::Beside, shift, true),
            sight => across::shape(sight, c.cockpit, Series(0), Weight::Beside, shift, true),
        };
        for p in shape.extent() {
            least = least.min(p);
            most = most.max(p);
        }
    }
    if !least.is_finite() {
        return Window { least: DVec2::ZERO, most: DVec2::ONE };
    }
    if let (true, Some((mm, _))) = (view.sight.has_two_sides(), &view.shoulders) {
        (least.x, most.x) = (least.x.min(-mm / 2.0), most.x.max(mm / 2.0));
    }
    let [before, after] = if view.sight == Sight::Side { SIDE_MM } else { ACROSS_MM };
    least -= DVec2::from(before);
    most += DVec2::from(after);
    let size = most - least;
    let grown =
        DVec2::new(size.x.max(size.y * width_to_height), size.y.max(size.x / width_to_height));
    if view.sight != Sight::Side {
        let middle = f64::midpoint(least.x, most.x);
        return Window {
            least: DVec2::new(middle - grown.x / 2.0, least.y),
            most: DVec2::new(middle + grown.x / 2.0, least.y + grown.y),
        };
    }
    // what is added goes behind and above, where the rider is
    Window {
        least: DVec2::new(most.x - grown.x, least.y),
        most: DVec2::new(most.x, least.y + grown.y),
    }
}

fn same_stem(a: &Cockpit, b: &Cockpit) -> bool {
    a.stem() == b.stem() && a.spacers_mm() == b.spacers_mm() && a.front() == b.front()
}

fn grid(window: &Window) -> Vec<Mark> {
    let pen = Pen::solid(Ink::Grid, 1.0);
    let lines = |least: f64, most: f64| {
        let first = (least / SQUARE_MM).ceil();
        let count = (most / SQUARE_MM).floor() - first;
        core::iter::successors(Some(0.0), |i| Some(i + 1.0))
            .take_while(move |i| *i <= count)
            .map(move |i| (first + i) * SQUARE_MM)
    };
    let (least, most) = (window.least, window.most);
    let upright = lines(least.x, most.x)
        .map(|x| Path::segment(DVec2::new(x, least.y), DVec2::new(x, most.y)));
    let level = lines(least.y, most.y)
        .map(|y| Path::segment(DVec2::new(least.x, y), DVec2::new(most.x, y)));
    upright.chain(level).map(|path| Mark::Stroke { path, pen }).collect()
}

/// The marks moved.
fn moved(marks: Vec<Mark>, by: DVec2) -> Vec<Mark> {
    marks.into_iter().map(|mark| mark.moved(by)).collect()
}
