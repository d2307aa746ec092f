package org.lightledger.testing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.opentest4j.AssertionFailedError;
import org.opentest4j.TestAbortedException;

class ReferenceTest {
  @TempDir Path folder;

  @Test
  void readsQuotedFieldsAndLeavesRemarksOut() throws IOException {
    Path file = folder.resolve("table.csv");
    Files.writeString(
        file, "# a remark\nname,said\n\n\"Reda, Ibrahim\",\"a \"\"quote\"\"\"\nplain,\n");

    assertThat(Reference.read(file))
        .containsExactly(
            Map.of("name", "Reda, Ibrahim", "said", "a \"quote\""),
            Map.of("name", "plain", "said", ""));
  }

  @Test
  void refusesARowOfAnotherLength() throws IOException {
    Path file = folder.resolve("table.csv");
    Files.writeString(file, "name,said\nalone\n");

    assertThatThrownBy(() -> Reference.read(file))
        .isInstanceOf(AssertionFailedError.class)
        .hasMessageContaining("fields in [alone]");
  }

  @Test
  void anAbsentTableSkipsTheTestExceptUnderContinuousIntegration() {
    assertThatThrownBy(() -> Reference.path("no/such/table.csv"))
        .isInstanceOf(
            "true".equals(System.getenv("CI"))
                ? AssertionFailedError.class
                : TestAbortedException.class)
        .hasMessageContaining("no reference file no/such/table.csv; name the folder");
  }
}
