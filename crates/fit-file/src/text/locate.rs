//! Where in the text something stands that the document's own check refused.
//!
//! The check knows a cockpit's label and a number, not lines. A line is only given where there is
//! no other it could be: the one place in the named objects where that number stands, or else the
//! one object of that name. It deliberately does not guess.

use super::spot;
use super::tokens::{Kind, Token, Tokens};
use core::ops::Range;
use fit_doc::{Message, Place, Spot};

/// A text cut once, to look for several findings in.
pub(crate) struct Locator<'a> {
    text: &'a str,
    tokens: Vec<Token<'a>>,
}

impl<'a> Locator<'a> {
    /// Cuts a text.
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, tokens: Tokens::new(text).collect() }
    }

    /// The place of a finding, if there is only one that it can be.
    pub(crate) fn locate(&self, message: &Message) -> Option<Spot> {
        let (place, number) = subject(message)?;
        let tokens = &self.tokens;
        let objects: Vec<Range<usize>> =
            (0..tokens.len()).filter_map(|index| object(tokens, index, place)).collect();
        let at = |index: usize| spot(self.text, tokens[index].at);
        if let Some(number) = number {
            let mut found: Vec<usize> = objects.iter().cloned().flatten().collect();
            found.retain(|&index| is_number(&tokens[index], number));
            found.sort_unstable();
            found.dedup();
            if let [only] = found[..] {
                return Some(at(only));
            }
        }
        match &objects[..] {
            [only] => Some(at(only.start)),
            _ => None,
        }
    }
}

/// What a message is about, and the number it complains of.
fn subject(message: &Message) -> Option<(&Place, Option<f64>)> {
    match message {
        Message::Refused { place, found, .. } | Message::Unusual { place, found, .. } => {
            Some((place, Some(*found)))
        }
        Message::LeverOffBar { place, along_mm, .. } => Some((place, Some(*along_mm))),
        Message::IdTwice { place, .. }
        | Message::NoSuchBike { place, .. }
        | Message::NoSuchCockpit { place, .. }
        | Message::EmptyReading { place, .. }
        | Message::ReadingTwice { place, .. }
        | Message::BarRefused { place, .. }
        | Message::CockpitImpossible { place, .. }
        | Message::ClampMismatch { place, .. }
        | Message::LegCannotTurn { place, .. } => Some((place, None)),
        _ => None,
    }
}

/// The tokens of the object of that name, from the key that names it to its end, if that key
/// stands at `index`.
fn object(tokens: &[Token<'_>], index: usize, place: &Place) -> Option<Range<usize>> {
    let (key, name) = match place {
        Place::Client => ("client", None),
        Place::Bike(name) => ("name", Some(name)),
        Place::Cockpit(label) => ("label", Some(label)),
        Place::Visit(date) => ("date", Some(date)),
        Place::Stock(_) => return None,
    };
    let [found, colon, value, rest @ ..] = tokens.get(index..)? else { return None };
    if found.text != key || colon.kind != Kind::Colon {
        return None;
    }
    if let Some(name) = name
        && (value.kind != Kind::Quoted || ron::from_str::<String>(value.text).ok()? != *name)
    {
        return None;
    }
    // parts have names as well; only a bike's is followed by its frame
    if matches!(place, Place::Bike(_)) && rest.get(1).is_none_or(|next| next.text != "frame") {
        return None;
    }
    Some(index..end_of_object(tokens, index, name.is_none()))
}

/// Where the brackets around `index` close; with `own`, those that open after it.
fn end_of_object(tokens: &[Token<'_>], index: usize, own: bool) -> usize {
    let mut depth = usize::from(!own);
    for (end, token) in tokens.iter().enumerate().skip(index) {
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Close if depth <= 1 => return end,
            Kind::Close => depth -= 1,
            _ => {}
        }
    }
    tokens.len()
}

fn is_number(token: &Token<'_>, number: f64) -> bool {
    token.kind == Kind::Word && token.text.parse() == Ok(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::Quantity;

    const TEXT: &str = "(client: (name: \"A\", born: Some(1700)),
bikes: [(id: \"b\", name: \"road\", frame: (stack_mm: 9.0),
  cockpit: (id: \"c\", label: \"as it came\", stem: (name: \"road\", length_mm: 999.0)))],
visits: [(date: \"2026-03-02\", bench: [
  (id: \"d\", label: \"twin\", roll_deg: 99.0, spacers_mm: 5.0),
  (id: \"e\", label: \"twin\", roll_deg: 1.0, spacers_mm: 5.0),
])])";

    fn refused(place: Place, found: f64) -> Message {
        let quantity = Quantity::Roll;
        Message::Refused { place, quantity, found, least: 0.0, most: 1.0 }
    }

    fn line(message: &Message) -> Option<usize> {
        Locator::new(TEXT).locate(message).map(|spot| spot.line)
    }

    #[test]
    fn the_number_itself_where_it_stands_once() {
        let came = || Place::Cockpit("as it came".into());
        assert_eq!(line(&refused(came(), 999.0)), Some(3));
        assert_eq!(line(&refused(Place::Client, 1700.0)), Some(1));
        assert_eq!(line(&refused(Place::Bike("road".into()), 9.0)), Some(2));
        let twin = || Place::Cockpit("twin".into());
        assert_eq!(line(&refused(twin(), 99.0)), Some(5), "only one of the two holds it");
        assert_eq!(line(&refused(twin(), 5.0)), None, "both hold it");
    }

    #[test]
    fn the_object_where_only_one_has_the_name() {
        let place = Place::Cockpit("as it came".into());
        assert_eq!(line(&Message::ClampMismatch { place, bar_mm: 1.0, stem_mm: 2.0 }), Some(3));
        let place = Place::Cockpit("twin".into());
        assert_eq!(line(&Message::IdTwice { place, id: "d".into() }), None);
        let place = Place::Visit("2026-03-02".into());
        assert_eq!(line(&Message::NoSuchBike { place, id: "x".into() }), Some(4));
        assert_eq!(line(&refused(Place::Stock("s".into()), 5.0)), None);
    }
}
