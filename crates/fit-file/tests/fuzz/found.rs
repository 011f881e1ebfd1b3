//! What chance once found, each with what is said of it now.

use crate::common::{edited, refusal};
use fit_doc::Message;

/// A quoted text where a number should stand, and the file ends there: the token behind it was looked for
/// beyond the end.
#[test]
fn a_file_that_ends_behind_a_text_where_a_number_should_stand() {
    for instead in ["\"585\"", "[", ":"] {
        let text = edited("stack_mm: 585.0", &format!("stack_mm: {instead}"));
        let end = text.find(&format!("stack_mm: {instead}")).unwrap() + "stack_mm: ".len();
        let said = refusal(&text[..end + instead.len()]);
        assert!(matches!(said, Message::DoesNotParse { .. }), "{said:?}");
    }
}
