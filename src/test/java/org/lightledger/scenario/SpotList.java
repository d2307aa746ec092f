package org.lightledger.scenario;

import java.util.List;

/** The studio's spots. */
final class SpotList {
  private SpotList() {}

  static List<Spot> spots() {
    return List.of(
        new Spot(
            "Ansar Meadow",
            "Riverside",
            new Point(-165, -75),
            List.of(238.0),
            "Open grass with low hills behind; clean backlight until the sun is on the ridge.",
            "Grass is wet before ten; bring the groundsheet."),
        new Spot(
            "Reed Bank",
            "Riverside",
            new Point(-256, -107),
            List.of(228.0),
            "Reeds and water glow with the sun behind them.",
            "River bank: slippery, keep two metres from the edge."),
        new Spot(
            "Bridge Landing",
            "Riverside",
            new Point(-136, 33),
            List.of(228.0, 12.0),
            "Two pictures in one place: down the river with the light behind, or the bridge lit"
                + " from the front.",
            "Pebbles: no heels. Under water after heavy rain."),
        new Spot(
            "Mill Wall",
            "Mill",
            new Point(16.5, 145),
            List.of(322.0),
            "Rough stone wall; afternoon sun rakes along it and models a face.",
            "Ask at the mill before moving the bench."),
        new Spot(
            "Washing Place",
            "Mill",
            new Point(105.8, 193.2),
            List.of(316.0),
            "Old wash house by the river, shade under its roof at any hour.",
            "Wet floor inside."),
        new Spot(
            "Cloth Hall Arcade",
            "Old town",
            new Point(25.8, -53.0),
            List.of(108.0),
            "Deep arcade: soft open shade and a bright far end, also when it rains.",
            "Market stalls on Tuesdays."),
        new Spot(
            "Market Square",
            "Old town",
            new Point(97, -46),
            List.of(24.0),
            "Tower behind; front light from mid afternoon.",
            "Delivery vans until eleven."),
        new Spot(
            "Tinajo Alley",
            "Old town",
            new Point(190, -95),
            List.of(240.0),
            "Narrow lane between old walls; a blade of light from the end of it late in the day.",
            "Front doors open onto it: keep the passage free."),
        new Spot(
            "Chapel Steps",
            "Loma",
            new Point(299.5, 120.4),
            List.of(55.0),
            "Pale plaster and steps to sit on; warm front light in the evening.",
            "Not during mass on Sunday mornings."),
        new Spot(
            "Walled Garden",
            "Old town",
            new Point(246, 27),
            List.of(300.0),
            "Lawn, cypresses and a warm wall; rim light in the afternoon.",
            "The gate is locked at sunset."),
        new Spot(
            "Poplar Avenue",
            "Avenue",
            new Point(-108, -247),
            List.of(230.0),
            "Two straight rows; the low sun stands at the end of the avenue in winter.",
            "Farm traffic: one person keeps watch."),
        new Spot(
            "Wheat Edge",
            "Fields",
            new Point(38, -424),
            List.of(243.0),
            "Field edge with nothing behind but sky; gold from June until the harvest.",
            "Stay on the margin, the crop is not ours."),
        new Spot(
            "Orchard Rows",
            "Fields",
            new Point(152, -287),
            List.of(215.0),
            "Blossom in April, fruit in September; backlight from autumn to spring.",
            "Wasps in September."),
        new Spot(
            "Barn Door",
            "Fields",
            new Point(316.2, -326),
            List.of(108.0),
            "Weathered boards, even front light in the afternoon.",
            "The dog is loud but tied."),
        new Spot(
            "Hedge Lane",
            "Lane",
            new Point(450, -179.5),
            List.of(255.0),
            "Sunken lane between hedges; backlight down its length.",
            "No room to park: leave the car at the chapel."),
        new Spot(
            "Tordel Top",
            "Tordel Hill",
            new Point(-620, 560),
            List.of(246.0),
            "Wide view west, last sun of the whole valley.",
            "Twenty minutes on foot; windy, no shelter in a storm."));
  }
}
