//! The table of bars: a row for each width.

use super::row::{Named, Row, Told, shelf_cell, word_of};
use super::{Part, cell, column_called};
use crate::stock::bars::{USUAL_CLAMP_MM, USUAL_FORWARD_BEND_MM, USUAL_TUBE_MM};
use fit_doc::{
    Bar, Family, Findings, Flare, Message, OnePiece, Place, StockList, TableColumn, TableSlip,
    WidthAt, WidthHow,
};

const FAMILIES: Named<Family> =
    (&["round", "flat", "variable"], &[Family::Round, Family::Flat, Family::Variable]);
const WIDTHS_AT: Named<WidthAt> = (&["hoods", "ends"], &[WidthAt::Hoods, WidthAt::Ends]);
const WIDTHS_HOW: Named<WidthHow> = (
    &["centre_to_centre", "outside_to_outside"],
    &[WidthHow::CentreToCentre, WidthHow::OutsideToOutside],
);
/// What a bar that is one piece with its stem says of the stem.
const OWN_STEM: [TableColumn; 3] =
    [TableColumn::OwnStemLength, TableColumn::OwnStemAngle, TableColumn::OwnStemClampHeight];

impl Part for Bar {
    const LIST: StockList = StockList::Bars;

    fn from_row(row: &mut Row<'_>) -> Result<Self, Told> {
        use TableColumn as C;
        let id = row.stock_number();
        let name = row.name(C::Name);
        let family = row.one_of(C::Family, FAMILIES);
        let width_at = row.one_of(C::WidthAt, WIDTHS_AT);
        let width_how = row.one_of(C::WidthHow, WIDTHS_HOW);
        let [width, reach, drop, ramp, tail, length] =
            [C::Width, C::Reach, C::Drop, C::RampSlope, C::TailSlope, C::TailLength]
                .map(|column| row.number(column));
        let flare = flare(row, width_how);
        let [outsweep, backsweep, rise, ramp_outsweep] =
            [C::Outsweep, C::Backsweep, C::Rise, C::RampOutsweep]
                .map(|column| row.number_or(column, 0.0));
        let bend = row.number_or(C::ForwardBendRadius, USUAL_FORWARD_BEND_MM);
        let clamp = row.number_or(C::ClampDiameter, USUAL_CLAMP_MM);
        let [tops, drops] =
            [C::TopsDiameter, C::DropsDiameter].map(|column| row.number_or(column, USUAL_TUBE_MM));
        let [depth, tolerance] =
            [C::TopsDepth, C::Tolerance].map(|column| row.maybe_number(column));
        let zone = row.maybe_numbers(C::ClampZone);
        let no_levers = row.maybe_yes(C::NoLevers);
        let one_piece = one_piece(row);
        let proportions = row.maybe_numbers(C::Proportions);
        let shelf = row.shelf();
        Ok(Self {
            id: id?,
            name: name?,
            family: family?,
            proportions: proportions?,
            reach_mm: reach?,
            drop_mm: drop?,
            width_mm: width?,
            width_at: width_at?,
            width_how: width_how?,
            flare: flare?,
            flare_from: row.text(C::FlareFrom),
            outsweep_deg: outsweep?,
            backsweep_deg: backsweep?,
            rise_deg: rise?,
            ramp_slope_deg: ramp?,
            ramp_outsweep_deg: ramp_outsweep?,
            tail_slope_deg: tail?,
            tail_length_mm: length?,
            forward_bend_radius_mm: bend?,
            clamp_diameter_mm: clamp?,
            tops_diameter_mm: tops?,
            drops_diameter_mm: drops?,
            tops_depth_mm: depth?,
            clamp_zone_mm: zone?.map(|[lowest, highest]| (lowest, highest)),
            no_levers: no_levers?,
            one_piece: one_piece?,
            tolerance_mm: tolerance?,
            shelf: shelf?,
        })
    }

    fn cell(&self, column: TableColumn) -> String {
        use TableColumn as C;
        let own =
            |number: fn(&OnePiece) -> f64| cell::maybe_cell(self.one_piece.as_ref().map(number));
        match column {
            C::Id => cell::text_cell(&self.id),
            C::Name => cell::text_cell(&self.name),
            C::Family => word_of(self.family, FAMILIES),
            C::Proportions => {
                self.proportions.map(|of| cell::numbers_cell(&of)).unwrap_or_default()
            }
            C::Reach => cell::number_cell(self.reach_mm),
            C::Drop => cell::number_cell(self.drop_mm),
            C::Width => cell::number_cell(self.width_mm),
            C::WidthAt => word_of(self.width_at, WIDTHS_AT),
            C::WidthHow => word_of(self.width_how, WIDTHS_HOW),
            C::Flare => match self.flare {
                Flare::Angle { deg } => cell::number_cell(deg),
                Flare::EndsWidth { .. } => String::new(),
            },
            C::EndsWidth => match self.flare {
                Flare::EndsWidth { mm, .. } => cell::number_cell(mm),
                Flare::Angle { .. } => String::new(),
            },
            C::FlareFrom => cell::text_cell(&self.flare_from),
            C::Backsweep => cell::number_cell(self.backsweep_deg),
            C::Rise => cell::number_cell(self.rise_deg),
            C::RampSlope => cell::number_cell(self.ramp_slope_deg),
            C::RampOutsweep => cell::number_cell(self.ramp_outsweep_deg),
            C::TailSlope => cell::number_cell(self.tail_slope_deg),
            C::TailLength => cell::number_cell(self.tail_length_mm),
            C::Outsweep => cell::number_cell(self.outsweep_deg),
            C::ForwardBendRadius => cell::number_cell(self.forward_bend_radius_mm),
            C::ClampDiameter => cell::number_cell(self.clamp_diameter_mm),
            C::TopsDiameter => cell::number_cell(self.tops_diameter_mm),
            C::TopsDepth => cell::maybe_cell(self.tops_depth_mm),
            C::DropsDiameter => cell::number_cell(self.drops_diameter_mm),
            C::ClampZone => self
                .clamp_zone_mm
                .map(|(lowest, highest)| cell::numbers_cell(&[lowest, highest]))
                .unwrap_or_default(),
            C::NoLevers => cell::yes_cell(self.no_levers),
            C::OwnStemLength => own(|stem| stem.stem_length_mm),
            C::OwnStemAngle => own(|stem| stem.stem_angle_deg),
            C::OwnStemClampHeight => own(|stem| stem.stem_clamp_height_mm),
            C::Tolerance => cell::maybe_cell(self.tolerance_mm),
            of_the_shelf => shelf_cell(&self.shelf, of_the_shelf).unwrap_or_default(),
        }
    }

    fn id(&self) -> &str {
        &self.id
    }

    fn check(&self, findings: &mut Findings, place: &Place) {
        fit_doc::check_bar(findings, place, self);
    }

    fn column_of(message: &Message) -> Option<TableColumn> {
        match message.place()?.last_field()? {
            "mm" => Some(TableColumn::EndsWidth),
            "flare" | "deg" => Some(TableColumn::Flare),
            field => column_called(Self::LIST, field),
        }
    }
}

/// The flare: an angle or a width at the ends, not both. That width is taken as the other one is.
fn flare(row: &mut Row<'_>, how: Result<WidthHow, Told>) -> Result<Flare, Told> {
    use TableColumn as C;
    let [angle, ends] = [C::Flare, C::EndsWidth].map(|column| row.maybe_number(column));
    if row.has(C::Flare) && row.has(C::EndsWidth) {
        let found = row.raw(C::EndsWidth).to_owned();
        let other = C::Flare.name();
        return Err(row.wrong(C::EndsWidth, TableSlip::NotBoth { found, other }));
    }
    match (angle?, ends?) {
        (_, Some(mm)) => Ok(Flare::EndsWidth { mm, how: how? }),
        (angle, None) => Ok(Flare::Angle { deg: angle.unwrap_or(0.0) }),
    }
}

/// The stem of a bar that is one piece with it: all of it, or nothing.
fn one_piece(row: &mut Row<'_>) -> Result<Option<OnePiece>, Told> {
    if !OWN_STEM.iter().any(|column| row.has(*column)) {
        return Ok(None);
    }
    let [length, angle, height] = OWN_STEM.map(|column| row.number(column));
    Ok(Some(OnePiece {
        stem_length_mm: length?,
        stem_angle_deg: angle?,
        stem_clamp_height_mm: height?,
    }))
}
