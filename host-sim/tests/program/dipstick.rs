//! The dipstick that `sheet` prints for a job.

use std::fs;

use crate::support::{run, told};

/// The labels of a dipstick are in the unit that the job file gives its volumes in: of the United States or imperial,
/// and else litres. The marks are where the chart has them, whatever the labels say: half a US gallon is 1.893 L, half
/// an imperial one 2.273 L (NIST SP 811, appendix B.8).
#[test]
fn a_dipstick_speaks_as_its_job() {
    let folder = tempfile::tempdir().unwrap();
    let job = |fill: &str| {
        format!(
            "name = \"T\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"300 mm\"\nwidth = \"200 mm\"\n\
             height = \"150 mm\"\n[stock]\nalloy = \"5052\"\nthickness = \"2 mm\"\n[fill]\n{fill}\n"
        )
    };
    let words = |fill: &str| -> Vec<String> {
        fs::write(folder.path().join("job.toml"), job(fill)).unwrap();
        let output = run(folder.path(), &["sheet", "job.toml", "--out", "out"]);
        assert!(output.status.success(), "{}", told(&output));
        let stick = lopdf::Document::load(folder.path().join("out/dipstick.pdf")).unwrap();
        let mut words = Vec::new();
        for page in stick.get_pages().into_values() {
            let content = lopdf::content::Content::decode(&stick.get_page_content(page)).unwrap();
            for operation in content.operations {
                if operation.operator == "Tj" {
                    let text = operation.operands[0].as_str().unwrap();
                    words.push(text.iter().map(|byte| char::from(*byte)).collect());
                }
            }
        }
        words
    };
    // 300 by 200 mm: each litre is 16.667 mm of depth.
    for (fill, label, aside) in [
        ("dip_volume = \"0.5 US gal\"", "1.5 US gal", "94.6 mm"),
        ("dip_volume = \"1 imperial pint\"", "3 imp pt", "28.4 mm"),
        ("dip_volume = \"0.5 L\"", "2.5 L", "41.7 mm"),
        ("dip_volume = \"500 mL\"", "2.5 L", "41.7 mm"),
        (
            "dip_volume = \"0.5 imp gal\"\ntarget = \"2 US gal\"",
            "0.5 imp gal",
            "37.9 mm",
        ),
        ("target = \"1 US gal\"", "0.634 US gal", "40.0 mm"),
        ("", "2.4 L", "40.0 mm"),
    ] {
        let words = words(fill);
        let at = words.iter().position(|word| word == label);
        let at = at.unwrap_or_else(|| panic!("{fill}: no {label} in {words:?}"));
        assert_eq!(words[at + 1], aside, "{fill}");
        let gallons = words
            .iter()
            .any(|word| word.contains("gal") || word.contains("pt"));
        assert_eq!(gallons, !label.ends_with(" L"), "{fill}");
    }
}
