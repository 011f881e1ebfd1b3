//! Random documents for the tests: any finite numbers, any words, every enum's every word,
//! whether or not such a person or bike could be.

use fit_doc::tape::BarKnown;
use fit_doc::{
    AfterNote, AfterScore, Aim, AsBuilt, Bar, Bike, Blade, Bounds, Client, ClientThen, Cockpit,
    Complaint, Concern, Corrected, Counts, Dimension, Elsewhere, Extent, Family, FingerPart, Flare,
    Frame, HandCheck, HandPlace, Helmet, Interview, Item, Joint, KnownBy, Lever, LeverSetting,
    LeverSort, Levers, Liking, Looked, Mobility, OnTheShelf, OnePiece, Price, Reaches, Reading,
    Ride, RideBrake, RideNumber, RideRow, RideScore, RuleOut, RuledOut, Saddle, Seen, SendOn,
    Session, Sex, Share, Stays, Stem, Suppleness, Tape, TapeItem, TapeReading, Veto, Visit, Wanted,
    Where, WidthAt, WidthHow,
};
use jiff::civil::Date;
use proptest::prelude::*;
use std::sync::Arc;

/// Pools that a document is filled from, in turn; they shrink well.
#[derive(Debug, Clone)]
struct Draw {
    numbers: Vec<f64>,
    words: Vec<String>,
    counts: Vec<u32>,
    next: usize,
}

const SIDES: [Where; 3] = [Where::Left, Where::Right, Where::Both];

impl Draw {
    fn turn(&mut self) -> usize {
        self.next += 1;
        self.next
    }

    fn n(&mut self) -> f64 {
        let turn = self.turn();
        self.numbers[turn % self.numbers.len()]
    }

    fn text(&mut self) -> String {
        let turn = self.turn();
        self.words[turn % self.words.len()].clone()
    }

    fn count(&mut self) -> u32 {
        let turn = self.turn();
        self.counts[turn % self.counts.len()]
    }

    fn byte(&mut self) -> u8 {
        self.count().to_le_bytes()[0]
    }

    fn yes(&mut self) -> bool {
        self.count().is_multiple_of(2)
    }

    fn pair(&mut self) -> (f64, f64) {
        (self.n(), self.n())
    }

    fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.count() as usize % all.len()]
    }

    fn maybe<T>(&mut self, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.yes().then(|| make(self))
    }

    fn several<T>(&mut self, mut make: impl FnMut(&mut Self) -> T) -> Vec<T> {
        (0..self.count() % 4).map(|_| make(self)).collect()
    }

    fn shelf(&mut self) -> OnTheShelf {
        OnTheShelf {
            price: self.maybe(|d| Price { cents: d.count() }),
            in_stock: self.count(),
            known_by: self.one_of(&[KnownBy::Catalogue, KnownBy::Measured, KnownBy::Traced]),
        }
    }

    fn how(&mut self) -> WidthHow {
        self.one_of(&[WidthHow::CentreToCentre, WidthHow::OutsideToOutside])
    }

    fn flare(&mut self) -> Flare {
        if self.yes() {
            Flare::Angle { deg: self.n() }
        } else {
            Flare::EndsWidth { mm: self.n(), how: self.how() }
        }
    }

    fn bar(&mut self) -> Bar {
        Bar {
            id: self.text(),
            name: self.text(),
            family: self.one_of(&[Family::Round, Family::Flat, Family::Variable]),
            proportions: self.maybe(|d| [d.n(), d.n(), d.n()]),
            reach_mm: self.n(),
            drop_mm: self.n(),
            width_mm: self.n(),
            width_at: self.one_of(&[WidthAt::Hoods, WidthAt::Ends]),
            width_how: self.how(),
            flare: self.flare(),
            flare_from: self.text(),
            outsweep_deg: self.n(),
            backsweep_deg: self.n(),
            rise_deg: self.n(),
            ramp_slope_deg: self.n(),
            ramp_outsweep_deg: self.n(),
            tail_slope_deg: self.n(),
            tail_length_mm: self.n(),
            forward_bend_radius_mm: self.n(),
            clamp_diameter_mm: self.n(),
            tops_diameter_mm: self.n(),
            drops_diameter_mm: self.n(),
            tops_depth_mm: self.maybe(Self::n),
            clamp_zone_mm: self.maybe(Self::pair),
            no_levers: self.yes(),
            one_piece: self.maybe(|d| OnePiece {
                stem_length_mm: d.n(),
                stem_angle_deg: d.n(),
                stem_clamp_height_mm: d.n(),
            }),
            tolerance_mm: self.maybe(Self::n),
            shelf: self.shelf(),
        }
    }

    fn stem(&mut self) -> Stem {
        Stem {
            id: self.text(),
            name: self.text(),
            length_mm: self.n(),
            angle_deg: self.n(),
            reversible: self.yes(),
            clamp_height_mm: self.n(),
            bar_diameter_mm: self.n(),
            steerer_diameter_mm: self.n(),
            shelf: self.shelf(),
        }
    }

    fn lever(&mut self) -> Lever {
        Lever {
            id: self.text(),
            name: self.text(),
            sort: self.one_of(&[
                LeverSort::Mechanical,
                LeverSort::Hydraulic,
                LeverSort::SmallHand,
                LeverSort::LongBody,
                LeverSort::BrakeOnly,
                LeverSort::WideFlare,
            ]),
            grip_mm: self.pair(),
            hood_slope_deg: self.n(),
            grip_radius_mm: self.n(),
            hood_outline_mm: self.several(Self::pair),
            blade: Blade {
                pivot_mm: self.pair(),
                length_mm: self.n(),
                usable_mm: self.pair(),
                rest_angle_deg: self.n(),
                adjuster_deg: self.several(Self::n),
                free_travel_mm: self.n(),
            },
            clamp_width_mm: self.n(),
            shelf: self.shelf(),
        }
    }

    fn setting(&mut self) -> LeverSetting {
        LeverSetting { along_mm: self.n(), turn_in_deg: self.n(), clicks: self.count() }
    }

    fn cockpit(&mut self) -> Cockpit {
        Cockpit {
            id: self.text(),
            label: self.text(),
            bar: self.bar(),
            stem: self.stem(),
            spacers_mm: self.n(),
            roll_deg: self.n(),
            levers: self.maybe(|d| Levers {
                lever: d.lever(),
                left: d.setting(),
                right: d.setting(),
            }),
            drops_hand_mm: self.n(),
            saddle: Saddle {
                height_mm: self.n(),
                nose_behind_mm: self.n(),
                sit_from_nose_mm: self.n(),
                tilt_deg: self.n(),
            },
            ridden: self.yes(),
        }
    }

    fn bike(&mut self) -> Bike {
        Bike {
            id: self.text(),
            name: self.text(),
            frame: Frame {
                stack_mm: self.n(),
                reach_mm: self.n(),
                head_angle_deg: self.n(),
                seat_angle_deg: self.n(),
                headset_cover_mm: self.n(),
                head_tube_mm: self.n(),
                fork_offset_mm: self.n(),
                wheel_radius_mm: self.n(),
                bottom_bracket_drop_mm: self.n(),
                rear_centre_mm: self.n(),
                crank_mm: self.n(),
            },
            cockpit: self.cockpit(),
            same_as: self.maybe(Self::text),
        }
    }

    fn complaint(&mut self) -> Complaint {
        Complaint {
            about: self.one_of(&Concern::ALL),
            side: self.one_of(&SIDES),
            place: self.maybe(|d| d.one_of(&HandPlace::ALL)),
            after_minutes: self.maybe(Self::count),
            score: self.maybe(Self::byte),
            words: self.text(),
            since: self.text(),
            carried: self.yes(),
        }
    }

    fn interview(&mut self) -> Interview {
        Interview {
            changed_before: self.text(),
            riding: self.text(),
            hours_per_week: self.maybe(Self::n),
            shares: self.several(|d| Share { place: d.one_of(&HandPlace::ALL), percent: d.byte() }),
            glasses: self.yes(),
            helmet: self.maybe(|d| d.one_of(&Helmet::ALL)),
            injuries: self.text(),
            fears: self.text(),
            red_flags: self.several(|d| d.one_of(&SendOn::ALL)),
            consent: self.yes(),
        }
    }

    fn ride_number(&mut self) -> RideNumber {
        RideNumber {
            row: self.one_of(&RideRow::ALL),
            place: self.one_of(&HandPlace::ALL),
            deg: self.n(),
        }
    }

    fn ride(&mut self) -> Ride {
        Ride {
            cockpit: self.text(),
            minutes: self.maybe(Self::count),
            scores: self.several(|d| RideScore {
                about: d.one_of(&Concern::ALL),
                side: d.one_of(&SIDES),
                place: d.maybe(|d| d.one_of(&HandPlace::ALL)),
                before: d.maybe(Self::byte),
                after: d.maybe(Self::byte),
            }),
            foretold: self.several(Self::ride_number),
            brakes: self.several(|d| RideBrake {
                side: d.one_of(&SIDES),
                reaches: d.one_of(&[Reaches::Yes, Reaches::Just, Reaches::No]),
            }),
            seen: self.several(Self::ride_number),
            words: self.text(),
            likes: self.maybe(|d| d.one_of(&Liking::ALL)),
            ended: self.yes(),
            as_it_came: self.yes(),
            corrected: self.several(|d| d.one_of(&Corrected::ALL)),
        }
    }

    fn day(&mut self) -> Date {
        self.one_of(&[Date::MIN, Date::ZERO, jiff::civil::date(2026, 2, 28), Date::MAX])
    }

    fn after(&mut self) -> AfterNote {
        AfterNote {
            date: self.day(),
            km: self.maybe(Self::count),
            scores: self.several(|d| AfterScore {
                about: d.one_of(&Concern::ALL),
                side: d.one_of(&SIDES),
                place: d.maybe(|d| d.one_of(&HandPlace::ALL)),
                score: d.maybe(Self::byte),
            }),
            as_built: self.one_of(&AsBuilt::ALL),
            words: self.text(),
        }
    }

    fn reading(&mut self) -> Reading {
        let dimension = Item::Dimension(self.one_of(&Dimension::ALL));
        let item =
            self.one_of(&[dimension, Item::Notch, Item::ShoulderToFist, Item::ShoulderJoints]);
        // nothing that is refused is written, and a weight has no side
        let sided = item != Dimension::Weight.into();
        let side = if sided { self.one_of(&SIDES) } else { Where::Both };
        Reading { item, side, values: self.several(Self::n) }
    }

    fn tape(&mut self) -> Tape {
        Tape {
            readings: self.several(|d| {
                let ways = d.one_of(&TapeItem::ALL).ways();
                TapeReading { of: d.one_of(ways), value: d.n() }
            }),
            nose_up_deg: self.n(),
            bar_known: self.one_of(&[
                BarKnown::Catalogue,
                BarKnown::Measured,
                BarKnown::FamilyOnly,
            ]),
            frame_known: self.yes(),
        }
    }

    fn visit(&mut self) -> Visit {
        Visit {
            date: self.day(),
            bike: self.text(),
            body: self.several(Self::reading),
            mobility: self.several(|d| Mobility {
                joint: d.one_of(&Joint::ALL),
                side: d.one_of(&SIDES),
                extent: if d.yes() {
                    Extent::Measured { deg: d.n() }
                } else {
                    Extent::Said(d.one_of(&Suppleness::ALL))
                },
                painful: d.yes(),
            }),
            seen: self.several(|d| Seen {
                cockpit: d.text(),
                place: d.one_of(&HandPlace::ALL),
                trunk_deg: d.maybe(Self::n),
                elbow_deg: d.maybe(Self::n),
                neck_deg: d.maybe(Self::n),
                knee_deg: d.maybe(Self::n),
                slide_mm: d.maybe(Self::n),
            }),
            hand_checks: self.several(|d| HandCheck {
                cockpit: d.text(),
                part: d.one_of(&FingerPart::ALL),
                side: d.one_of(&SIDES),
                reaches: d.one_of(&[Reaches::Yes, Reaches::Just, Reaches::No]),
            }),
            glove_mm: self.n(),
            interview: if self.yes() { self.interview() } else { Interview::default() },
            complaints: self.several(Self::complaint),
            ruled_out: self.several(|d| RuledOut {
                item: d.one_of(&RuleOut::ALL),
                looked: d.one_of(&Looked::ALL),
            }),
            wishes: self.several(Self::text),
            wanted: self.several(|d| Wanted {
                aim: d.one_of(&Aim::ALL),
                place: d.maybe(|d| d.one_of(&HandPlace::ALL)),
                by_mm: d.maybe(Self::n),
                counts: d.one_of(&Counts::ALL),
            }),
            bounds: if self.yes() { self.bounds() } else { Bounds::default() },
            as_it_came: self.cockpit(),
            tape: if self.yes() { self.tape() } else { Tape::default() },
            bench: self.several(Self::cockpit),
            put_right: self.maybe(Self::text),
            rides: self.several(Self::ride),
            elsewhere: self.maybe(|d| d.one_of(&Elsewhere::ALL)),
            vetoes: self.several(|d| Veto { cockpit: d.text(), words: d.text() }),
            hour: self.maybe(|d| Price { cents: d.count() }),
            client_then: self.maybe(|d| ClientThen {
                sex: d.maybe(|d| d.one_of(&Sex::BOTH)),
                born: d.maybe(|d| i16::from(d.byte()) - 40),
            }),
            chosen: self.maybe(Self::text),
            built: if self.yes() { self.tape() } else { Tape::default() },
            afterwards: self.several(Self::after),
            notes: self.text(),
        }
    }

    fn bounds(&mut self) -> Bounds {
        Bounds {
            stays: self.several(|d| d.one_of(&Stays::ALL)),
            width_mm: self.maybe(Self::pair),
            stem_mm: self.maybe(Self::pair),
            spacers_mm: self.maybe(Self::n),
            money: self.maybe(|d| Price { cents: d.count() }),
            minutes: self.maybe(Self::count),
            in_stock_only: self.yes(),
            event_rules: self.yes(),
        }
    }

    fn session(&mut self) -> Session {
        Session {
            id: self.text(),
            client: Client {
                name: self.text(),
                sex: self.maybe(|d| d.one_of(&Sex::BOTH)),
                born: self.maybe(|d| i16::from(d.byte()) - 40),
                notes: self.text(),
            },
            bikes: self.several(Self::bike),
            visits: self.several(|d| Arc::new(d.visit())),
            keep_until: self.maybe(Self::day),
        }
    }
}

/// Any finite number, the odd ones often.
fn number() -> impl Strategy<Value = f64> {
    let odd = prop::sample::select(vec![
        0.0,
        -0.0,
        0.1,
        1e308,
        -f64::MAX,
        f64::MIN_POSITIVE,
        5e-324,
        1e16,
        9_007_199_254_740_993.0,
        0.1 + 0.2,
    ]);
    let any = any::<f64>().prop_filter("finite", |x| x.is_finite());
    prop_oneof![odd, any, -1000.0..1000.0_f64]
}

/// Any text, the hard characters often.
fn word() -> impl Strategy<Value = String> {
    let hard: Vec<char> =
        "\"\\'\n\r\t\0/*()[]{},:#ré\u{301}\u{200f}\u{202e}\u{feff}\u{1f6b2}".chars().collect();
    prop::collection::vec(prop_oneof![prop::sample::select(hard), any::<char>()], 0..12)
        .prop_map(|chars| chars.into_iter().collect())
}

/// Any document.
pub(super) fn session() -> impl Strategy<Value = Session> {
    let numbers = prop::collection::vec(number(), 1..40);
    let words = prop::collection::vec(word(), 1..12);
    let counts = prop::collection::vec(any::<u32>(), 1..40);
    (numbers, words, counts)
        .prop_map(|(numbers, words, counts)| Draw { numbers, words, counts, next: 0 }.session())
}
