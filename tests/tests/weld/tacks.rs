//! How long tacks are and how far apart.

use seamwright_core::units::Length;
use seamwright_tests::amounts::mm;

/// Tacks on aluminium: 8 t long, at most 35 t apart; Mathers, p. 88. At 3 mm: 24 and 105 mm.
#[test]
fn tacks_keep_their_length_and_pitch() {
    use seamwright_core::seam::{TACK_LENGTH, TACK_PITCH, Tacks};
    for seam in [25.0, 48.0, 49.0, 128.9, 129.1, 400.0, 1_234.5] {
        let (length, pitch) = (mm(TACK_LENGTH * 3.0), mm(TACK_PITCH * 3.0));
        assert!((length.si() - 0.024).abs() < 1e-15 && (pitch.si() - 0.105).abs() < 1e-15);
        let tacks = Tacks::spaced(mm(seam), length, pitch).unwrap();
        let centres: Vec<f64> = tacks.centres().map(Length::si).collect();
        assert_eq!(centres.len(), usize::from(tacks.count));
        let (first, last) = (centres[0], centres[centres.len() - 1]);
        assert!(
            ((first + last) - mm(seam).si()).abs() < 1e-12,
            "{seam} mm: the ends differ"
        );
        for pair in centres.windows(2) {
            let apart = pair[1] - pair[0];
            assert!(
                apart <= pitch.si() * (1.0 + 1e-9) && apart > 0.0,
                "{seam} mm: {apart} m apart"
            );
        }
        let fewer = f64::from(tacks.count.saturating_sub(2)) * pitch.si();
        let must = mm(seam).si() - length.si();
        assert!(
            tacks.count < 3 || fewer < must,
            "{seam} mm: {} tacks, one fewer would do",
            tacks.count
        );
    }
}
