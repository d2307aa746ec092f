package org.lightledger.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ArchitectureTest {
  private static final String ROOT = "org.lightledger";
  private static final String SEEDED_ROOT = "org.lightledger.architecture.seeded";
  private static final JavaClasses MAIN =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(location -> !location.contains("/web/view/"))
          .importPackages(ROOT);
  private static final JavaClasses SEEDED = new ClassFileImporter().importPackages(SEEDED_ROOT);

  static Stream<String> ruleNames() {
    return ArchitectureRules.of(ROOT).keySet().stream();
  }

  @ParameterizedTest
  @MethodSource("ruleNames")
  void holds(String ruleName) {
    rule(ROOT, ruleName).check(MAIN);
  }

  /** A rule that nothing can break guards nothing: each is broken once on purpose. */
  @ParameterizedTest
  @MethodSource("ruleNames")
  void bites(String ruleName) {
    assertThat(rule(SEEDED_ROOT, ruleName).evaluate(SEEDED).hasViolation()).isTrue();
  }

  @Test
  void everyRoomThatARuleNamesExists() {
    List<String> rooms = new ArrayList<>(List.of(ArchitectureRules.CORE));
    rooms.addAll(ArchitectureRules.LIBRARY_ROOMS.values());
    rooms.addAll(Set.of("web", "cli", "indexing", "app"));

    assertThat(rooms)
        .allSatisfy(
            room ->
                assertThat(MAIN.stream())
                    .anyMatch(found -> found.getPackageName().startsWith(ROOT + "." + room)));
  }

  private static ArchRule rule(String root, String ruleName) {
    return java.util.Objects.requireNonNull(ArchitectureRules.of(root).get(ruleName));
  }
}
