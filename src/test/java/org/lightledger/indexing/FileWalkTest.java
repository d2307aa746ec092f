package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(60)
class FileWalkTest {
  @TempDir Path folder;

  private Path file(String name) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, name);
  }

  private Path link(String name, Path to) throws IOException {
    Path link = folder.resolve(name);
    Files.createDirectories(link.getParent());
    return Files.createSymbolicLink(link, to);
  }

  private List<String> walk(Path... roots) {
    List<String> met = new ArrayList<>();
    FileWalk walk = FileWalk.below(List.of(roots));
    while (walk.hasNext()) {
      met.add(
          walk.next() instanceof FileWalk.Met file
              ? folder.relativize(file.file()).toString()
              : "refused");
    }
    return met;
  }

  @Test
  void filesComeInTheOrderOfTheirWholePaths() throws IOException {
    for (String name :
        List.of("b/x", "b.jpg", "b-1/x", "b/a/z", "b/a.jpg", "a", "ß", "B/x", "b0", "b/a0/y")) {
      file(name);
    }
    Set<String> sorted = new TreeSet<>();
    try (var all = Files.walk(folder)) {
      all.filter(Files::isRegularFile).forEach(path -> sorted.add(path.toString()));
    }

    assertThat(walk(folder).stream().map(name -> folder.resolve(name).toString()))
        .containsExactlyElementsOf(sorted);
    assertThat(FileWalk.count(List.of(folder), ImportProgress.NONE)).isEqualTo(sorted.size());
  }

  @Test
  void aFileNamedTwiceIsMetOnce() throws IOException {
    Path file = file("in/a.jpg");

    assertThat(walk(folder.resolve("in"), file, folder, folder.resolve("in/../in/a.jpg")))
        .containsExactly("in/a.jpg");
  }

  @Test
  void loopsOfLinksEnd() throws IOException {
    file("a/b/c.jpg");
    link("a/b/up", folder);
    link("a/self", folder.resolve("a/self"));
    link("a/here", Path.of("."));

    assertThat(walk(folder)).containsExactlyInAnyOrder("a/b/c.jpg", "refused");
  }

  @Test
  void aThicketOfLinksBetweenFoldersIsWalkedOnce() throws IOException {
    for (int i = 0; i < 12; i++) {
      file("out/" + i + "/photo.jpg");
      for (int j = 0; j < 12; j++) {
        link("out/" + i + "/to" + j, folder.resolve("out/" + j));
      }
    }
    link("in/out", folder.resolve("out"));

    assertThat(walk(folder.resolve("in"))).hasSize(12);
  }

  @Test
  void linksThatLeadOutAreFollowedAndSoIsARoot() throws IOException {
    file("disk/2024/a.jpg");
    file("disk/single.jpg");
    link("photos/2024", folder.resolve("disk/2024"));
    link("photos/one.jpg", folder.resolve("disk/single.jpg"));
    link("root", folder.resolve("photos"));

    assertThat(walk(folder.resolve("photos")))
        .containsExactly("photos/2024/a.jpg", "photos/one.jpg");
    assertThat(walk(folder.resolve("root"))).containsExactly("root/2024/a.jpg", "root/one.jpg");
  }

  @Test
  void whatCanNotBeReachedIsTold() throws IOException {
    file("a.jpg");
    link("dangling.jpg", folder.resolve("nothing"));

    assertThat(walk(folder, folder.resolve("not there"), folder.getParent().resolve("nor this")))
        .containsExactlyInAnyOrder("a.jpg", "refused", "refused", "refused");
  }

  @Test
  void aFolderThatMayNotBeReadIsTold() throws IOException {
    assumeTrue(
        folder.getFileSystem().supportedFileAttributeViews().contains("posix"),
        "needs POSIX permissions");
    Path closed = file("closed/a.jpg").getParent();
    file("z.jpg");
    Files.setPosixFilePermissions(closed, PosixFilePermissions.fromString("---------"));
    try {
      // Root may read everything, and then gets it.
      String met = Files.isReadable(closed) ? "closed/a.jpg" : "refused";
      assertThat(walk(folder)).containsExactlyInAnyOrder(met, "z.jpg");
    } finally {
      Files.setPosixFilePermissions(closed, PosixFilePermissions.fromString("rwx------"));
    }
  }

  @Test
  void foldersThatVanishAfterTheListingAndLinksToNothingAreTold() throws IOException {
    file("a.jpg");
    link("b.jpg", folder.resolve("nothing.jpg"));
    Path goneFolder = file("c/d.jpg");
    FileWalk walk = FileWalk.below(List.of(folder));
    assertThat(walk.next()).isInstanceOf(FileWalk.Met.class);
    Files.delete(goneFolder);
    Files.delete(goneFolder.getParent());

    assertThat(walk.next()).isInstanceOf(FileWalk.Refused.class);
    assertThat(walk.next()).isInstanceOf(FileWalk.Refused.class);
    assertThat(walk.hasNext()).isFalse();
  }
}
