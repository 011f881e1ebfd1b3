//! The structure of a page: which tag each part gets, in reading order, and the headings once more
//! as the outline that viewers show beside the page.
//!
//! Lines of text inside a part end with a space when another line follows, so that the words of two
//! lines do not run together where they are copied or read out.

use super::PaperError;
use super::draw::{Brush, readable};
use core::num::NonZeroU16;
use fit_view::picture::{Item, Picture, Role};
use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::outline::{Outline, OutlineNode};
use krilla::tagging::{ListNumbering, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};

/// What a document keeps of a page beside its drawing.
pub(super) struct Structure {
    /// Parts in reading order.
    pub(super) tree: TagTree,
    /// Its headings.
    pub(super) outline: Outline,
}

/// Draws the page and says what it consists of.
pub(super) fn structure(
    picture: &Picture,
    title: &str,
    pen: &mut Brush<'_>,
) -> Result<Structure, PaperError> {
    pen.ground(picture.width, picture.height)?;
    let mut walk = Walk { outline: Outline::new(), title };
    let mut tree = TagTree::new().with_lang(Some(picture.language.to_owned()));
    for item in &picture.items {
        if let Some(group) = walk.item(item, pen)? {
            tree.push(group);
        }
    }
    if !picture.leaves().iter().any(|item| matches!(item, Item::Text { .. })) {
        // a page of drawings alone is found by its title
        walk.note(title, 0.0);
    }
    Ok(Structure { tree, outline: walk.outline })
}

struct Walk<'a> {
    outline: Outline,
    title: &'a str,
}

impl Walk<'_> {
    /// Draws something that stands on the page by itself; none where it is only decoration.
    fn item(&mut self, item: &Item, pen: &mut Brush<'_>) -> Result<Option<TagGroup>, PaperError> {
        match item {
            Item::Part { role, items } => self.part(*role, items, pen).map(Some),
            Item::Box { .. } => pen.decoration(item).map(|()| None),
            Item::Panel(_) => self.part(Role::Figure, core::slice::from_ref(item), pen).map(Some),
            Item::Text { .. } => {
                self.part(Role::Paragraph, core::slice::from_ref(item), pen).map(Some)
            }
        }
    }

    fn part(
        &mut self,
        role: Role,
        items: &[Item],
        pen: &mut Brush<'_>,
    ) -> Result<TagGroup, PaperError> {
        if role == Role::Entry {
            let mut entry = TagGroup::new(Tag::LI);
            let mut body = TagGroup::new(Tag::LBody);
            self.fill(&mut body, role, items, pen)?;
            entry.push(body);
            return Ok(entry);
        }
        let mut group = TagGroup::new(self.tag(role, items));
        if role == Role::Figure {
            group.push(pen.figure(items)?);
        } else {
            self.fill(&mut group, role, items, pen)?;
        }
        Ok(group)
    }

    fn fill(
        &mut self,
        group: &mut TagGroup,
        role: Role,
        items: &[Item],
        pen: &mut Brush<'_>,
    ) -> Result<(), PaperError> {
        for (index, item) in items.iter().enumerate() {
            match item {
                Item::Text { .. } => {
                    let more = items[index + 1..].iter().any(|i| matches!(i, Item::Text { .. }));
                    group.push(pen.words(item, more)?);
                }
                Item::Box { .. } => pen.decoration(item)?,
                // a drawing among words is a figure of its own
                Item::Panel(_) | Item::Part { .. } => {
                    if let Some(inner) = self.item(item, pen)? {
                        group.push(inner);
                    }
                }
            }
        }
        if matches!(role, Role::Title | Role::Heading) {
            self.note(&text_of(items), top_of(items));
        }
        Ok(())
    }

    /// A line of the outline.
    fn note(&mut self, text: &str, y: f32) {
        let at = XyzDestination::new(0, Point::from_xy(0.0, y));
        self.outline.push_child(OutlineNode::new(text.to_owned(), at));
    }

    fn tag(&self, role: Role, items: &[Item]) -> TagKind {
        let first = NonZeroU16::MIN;
        match role {
            Role::Title => Tag::Hn(first, Some(text_of(items))).into(),
            Role::Heading => Tag::Hn(first.saturating_add(1), Some(text_of(items))).into(),
            Role::Paragraph => Tag::P.into(),
            Role::List => Tag::L(ListNumbering::Disc).into(),
            Role::Entry => Tag::LI.into(),
            Role::Table => Tag::Table.into(),
            Role::Row => Tag::TR.into(),
            Role::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
            Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
            Role::Cell => Tag::TD.into(),
            Role::Figure => {
                let twin: Vec<&str> = items.iter().flat_map(Item::twin).collect();
                let says = if twin.is_empty() { self.title.to_owned() } else { twin.join(". ") };
                Tag::Figure(Some(readable(&says))).into()
            }
        }
    }
}

/// The words of a part, its lines joined.
fn text_of(items: &[Item]) -> String {
    let texts = items.iter().flat_map(Item::leaves).filter_map(|item| match item {
        Item::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    readable(&texts.collect::<Vec<_>>().join(" "))
}

/// The upper edge of a part's first line, points.
#[expect(clippy::cast_possible_truncation, reason = "a place on a page")]
fn top_of(items: &[Item]) -> f32 {
    let tops = items.iter().flat_map(Item::leaves).filter_map(|item| match item {
        Item::Text { at, size, .. } => Some(at.y - size),
        _ => None,
    });
    tops.fold(f64::INFINITY, f64::min).max(0.0) as f32
}
