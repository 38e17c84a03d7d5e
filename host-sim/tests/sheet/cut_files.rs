//! DXF by its group codes (Autodesk's DXF reference: 0 kind, 8 layer, 10/20 position, 40 radius, 42 bulge,
//! 70 flags) and SVG by an XML reader (SVG 1.1: 8.3.8 elliptical arcs).

use seamwright::sheet::{dxf, svg};

use super::{ODD, near, piece};

type Codes = Vec<(i32, String)>;

fn entities() -> (Codes, Vec<Codes>) {
    let text = String::from_utf8(dxf::pattern(&piece()).unwrap()).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let codes: Codes = lines
        .chunks(2)
        .map(|pair| (pair[0].trim().parse().unwrap(), pair[1].to_owned()))
        .collect();
    let start = codes
        .iter()
        .position(|(code, value)| *code == 2 && value == "ENTITIES")
        .unwrap();
    let mut found: Vec<Codes> = Vec::new();
    for (code, value) in &codes[start + 1..] {
        if *code == 0 {
            if value == "ENDSEC" {
                break;
            }
            found.push(Vec::new());
        }
        found.last_mut().unwrap().push((*code, value.clone()));
    }
    (codes, found)
}

fn all(entity: &Codes, code: i32) -> Vec<f64> {
    let values = entity.iter().filter(|(c, _)| *c == code);
    values.map(|(_, v)| v.trim().parse().unwrap()).collect()
}

fn kind<'a>(entities: &'a [Codes], kind: &str) -> Vec<&'a Codes> {
    entities.iter().filter(|e| e[0].1 == kind).collect()
}

fn layer(entity: &Codes) -> &str {
    &entity.iter().find(|(code, _)| *code == 8).unwrap().1
}

#[test]
fn a_dxf_is_in_millimetres_with_one_closed_outline() {
    let (codes, entities) = entities();
    let setting = |name: &str| {
        let at = codes
            .iter()
            .position(|(c, v)| *c == 9 && v == name)
            .unwrap();
        codes[at + 1].1.trim().to_owned()
    };
    // $INSUNITS 4 is millimetres, $MEASUREMENT 1 metric (DXF reference, HEADER section).
    assert_eq!(setting("$INSUNITS"), "4");
    assert_eq!(setting("$MEASUREMENT"), "1");
    assert_eq!(setting("$ACADVER"), "AC1015");
    let outlines = kind(&entities, "LWPOLYLINE");
    assert_eq!(outlines.len(), 1);
    assert_eq!(layer(outlines[0]), "CUT");
    assert_eq!(all(outlines[0], 70), [1.0]);
    let xs = all(outlines[0], 10);
    let wanted = [0.0, 410.0, 410.0, 370.0, 230.0, 170.0, 0.0];
    assert_eq!(xs.len(), wanted.len());
    assert!(
        xs.iter().zip(wanted).all(|(x, w)| near(*x, w, 1e-6)),
        "{xs:?}"
    );
    let circle = kind(&entities, "CIRCLE")[0];
    assert!(near(all(circle, 40)[0], 19.0, 1e-9));
    assert_eq!(layer(circle), "HOLES");
}

#[test]
fn a_dxf_bulge_makes_the_arc_that_was_meant() {
    let (_, entities) = entities();
    let outline = kind(&entities, "LWPOLYLINE")[0];
    // Vertex by vertex, for a bulge of 0 may be left out.
    let mut vertices: Vec<[f64; 3]> = Vec::new();
    for (code, value) in outline {
        let number = || value.trim().parse::<f64>().unwrap();
        match code {
            10 => vertices.push([number(), 0.0, 0.0]),
            20 => vertices.last_mut().unwrap()[1] = number(),
            42 => vertices.last_mut().unwrap()[2] = number(),
            _ => {}
        }
    }
    // Sagitta = bulge times half the chord (definition of the bulge): the top of the arc lies so far
    // to the right of the way from start to end.
    let top = |i: usize| {
        let ([ax, ay, b], [bx, by, _]) = (vertices[i], vertices[i + 1]);
        let (dx, dy) = (bx - ax, by - ay);
        [
            (ax + bx) / 2.0 + dy * b / 2.0,
            (ay + by) / 2.0 - dx * b / 2.0,
        ]
    };
    // Rounded corner: centre (370, 260), radius 40, middle at 45°.
    let reach = 40.0 * std::f64::consts::FRAC_1_SQRT_2;
    let [x, y] = top(2);
    assert!(
        near(x, 370.0 + reach, 0.001) && near(y, 260.0 + reach, 0.001),
        "{x} {y}"
    );
    // Notch: centre (200, 300), radius 30, into the metal.
    let [x, y] = top(4);
    assert!(near(x, 200.0, 0.001) && near(y, 270.0, 0.001), "{x} {y}");
}

#[test]
fn odd_signs_survive_in_both_files() {
    let (_, entities) = entities();
    let texts: Vec<String> = kind(&entities, "TEXT")
        .iter()
        .map(|e| e.iter().find(|(code, _)| *code == 1).unwrap().1.clone())
        .collect();
    // U+0141 and U+017A as the DXF reference escapes them; %%% is a percent sign beside others.
    let heading = texts.iter().find(|text| text.starts_with("P1 ")).unwrap();
    assert!(
        heading.contains("\\U+0141") && heading.to_uppercase().contains("\\U+017A"),
        "{heading}"
    );
    assert!(heading.contains("& back <b>"), "{heading}");
    assert!(texts.iter().any(|text| text == "90%%d up"), "{texts:?}");
    let file = svg::pattern(&piece());
    let tree = roxmltree::Document::parse(&file).unwrap();
    let title = tree
        .descendants()
        .find(|n| n.has_tag_name("title"))
        .unwrap();
    assert_eq!(title.text().unwrap(), format!("P1  {ODD}"));
}

#[test]
fn an_svg_is_full_size_and_its_arcs_bend_the_right_way() {
    let file = svg::pattern(&piece());
    let tree = roxmltree::Document::parse(&file).unwrap();
    let root = tree.root_element();
    let size = |name: &str| -> f64 {
        let value = root.attribute(name).unwrap();
        value.strip_suffix("mm").unwrap().parse().unwrap()
    };
    let view: Vec<f64> = root
        .attribute("viewBox")
        .unwrap()
        .split(' ')
        .map(|v| v.parse().unwrap())
        .collect();
    assert!(near(view[2] / size("width"), 1.0, 1e-9));
    assert!(near(view[3] / size("height"), 1.0, 1e-9));
    let cut = tree
        .descendants()
        .find(|n| n.attribute("id") == Some("CUT"))
        .unwrap();
    let path = cut.first_element_child().unwrap().attribute("d").unwrap();
    assert!(path.starts_with("M0 0L410 0L410 -260"), "{path}");
    // Anticlockwise to the eye is sweep flag 0, clockwise 1.
    assert!(path.contains("A40 40 0 0 0 370 -300"), "{path}");
    assert!(path.contains("A30 30 0 0 1 170 -300"), "{path}");
    let circle = tree
        .descendants()
        .find(|n| n.has_tag_name("circle"))
        .unwrap();
    assert_eq!(circle.attribute("r"), Some("19"));
    assert_eq!(circle.attribute("cy"), Some("-60"));
}
