package org.lightledger.architecture;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.lang.ArchRule;
import java.util.LinkedHashMap;
import java.util.Map;

/** The house rules about who may know whom, for a root package. */
final class ArchitectureRules {
  /** The core: no SQL, no HTTP, no files of others, no clock. */
  static final String[] CORE = {
    "geo",
    "sun",
    "light",
    "spot",
    "ask",
    "shortlist",
    "share",
    "skyline",
    "map",
    "exchange",
    "field",
    "session"
  };

  /** Which room alone may use which library. */
  static final Map<String, String> LIBRARY_ROOMS =
      Map.ofEntries(
          Map.entry("com.drew..", "shot.exif"),
          Map.entry("net.iakovlev..", "shot.zone"),
          Map.entry("org.apache.sis..", "skyline.terrain"),
          Map.entry("java.sql..", "store"),
          Map.entry("org.flywaydb..", "store"),
          Map.entry("io.javalin..", "web"),
          Map.entry("picocli..", "cli"),
          Map.entry("crosby.binary..", "map.osm"),
          Map.entry("biweekly..", "session.calendar"),
          Map.entry("com.graphhopper..", "session.drive.roads"),
          Map.entry("jakarta.mail..", "session.mail"),
          Map.entry("com.openhtmltopdf..", "session.print"),
          Map.entry("org.apache.pdfbox..", "session.print"));

  private ArchitectureRules() {}

  static Map<String, ArchRule> of(String root) {
    Map<String, ArchRule> rules = new LinkedHashMap<>();
    LIBRARY_ROOMS.forEach(
        (library, room) ->
            rules.put(
                "only " + room + " uses " + library,
                noClasses()
                    .that()
                    .resideInAPackage(root + "..")
                    .and()
                    .resideOutsideOfPackage(root + "." + room + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage(library)));
    rules.put(
        "the core knows neither the ledger nor the screens",
        noClasses()
            .that()
            .resideInAnyPackage(inRoot(root, CORE))
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(inRoot(root, "store", "web", "cli", "indexing")));
    rules.put(
        "what reads the files of strangers opens no connection",
        noClasses()
            .that()
            .resideInAPackage(root + ".exchange..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("java.net.."));
    rules.put(
        "the planner knows drives and no roads",
        noClasses()
            .that()
            .resideInAPackage(root + ".session.planner..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage(root + ".session.drive.roads.."));
    rules.put(
        "nobody imports app",
        noClasses()
            .that()
            .resideInAPackage(root + "..")
            .and()
            .resideOutsideOfPackage(root + ".app..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage(root + ".app.."));
    rules.put(
        "only app knows the machine's clock, zone and locale",
        noClasses()
            .that()
            .resideInAPackage(root + "..")
            .and()
            .resideOutsideOfPackage(root + ".app..")
            .should()
            .callMethodWhere(
                target(owner(nameMatching("java\\.time\\..*")))
                    .and(target(name("now")).or(target(nameMatching("system.*")))))
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(java.util.Locale.class, "getDefault")
            .orShould()
            .callMethod(java.util.TimeZone.class, "getDefault"));
    rules.put(
        "features do not depend on each other in a circle",
        slices().matching(root + ".(*)..").should().beFreeOfCycles());
    return rules;
  }

  private static String[] inRoot(String root, String... rooms) {
    String[] packages = new String[rooms.length];
    for (int i = 0; i < rooms.length; i++) {
      packages[i] = root + "." + rooms[i] + "..";
    }
    return packages;
  }
}
