package org.lightledger.skyline.terrain;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Ground;

/**
 * Elevation files as one surface: where several know the height, the one with the closest posts
 * counts, and the others fill its voids. Files are opened when needed; of what was read the last
 * used stays in memory, up to a stated number of bytes.
 *
 * <p>Safe for use by several threads.
 */
public final class ElevationSurface implements Ground {
  /** Bytes of posts kept in memory: own choice, nine tiles of one arc second. */
  public static final long DEFAULT_CACHE_BYTES = 256L << 20;

  /** Metres of a degree of latitude, for ordering spacings: the mean of WGS 84, rounded. */
  private static final double METRES_PER_DEGREE = 111_200.0;

  private final List<Lattice> finestFirst;
  private final PostCache cache;

  ElevationSurface(List<Lattice> lattices, PostCache cache) {
    List<Lattice> sorted = new ArrayList<>(lattices);
    sorted.sort(Comparator.comparingDouble(Lattice::spacingM));
    this.finestFirst = List.copyOf(sorted);
    this.cache = cache;
  }

  /**
   * What came of opening elevation files.
   *
   * @param surface the files that can be used
   * @param files how many those are
   * @param problems one line for each that can not
   */
  public record Opened(ElevationSurface surface, int files, List<String> problems) {}

  /**
   * Opens elevation files: .hgt, .hgt.zip, .tif and .tiff. Folders are walked; files of other kinds
   * in them are passed over.
   *
   * @param filesAndFolders what to open
   * @param cacheBytes how much may stay in memory
   * @return the surface, and what could not be opened
   * @throws IOException when a folder can not be listed
   */
  public static Opened open(List<Path> filesAndFolders, long cacheBytes) throws IOException {
    PostCache cache = new PostCache(cacheBytes);
    Map<Integer, Lattice> hgt = new TreeMap<>();
    GeoTiffLattices tiffs = new GeoTiffLattices(cache);
    List<String> problems = new ArrayList<>();
    int files = 0;
    for (Path file : files(filesAndFolders)) {
      String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
      try {
        if (HgtFile.looksLike(name)) {
          add(HgtFile.open(file), hgt, cache);
        } else if (isTiff(name)) {
          tiffs.add(GeoTiffFile.open(file));
        } else {
          throw new ElevationFileException(
              file.getFileName() + ": expected .hgt, .hgt.zip, .tif or .tiff");
        }
        files++;
      } catch (IOException e) {
        problems.add(
            e instanceof ElevationFileException && e.getMessage() != null
                ? e.getMessage()
                : file.getFileName() + ": can not be read (" + e.getClass().getSimpleName() + ")");
      }
    }
    List<Lattice> lattices = new ArrayList<>(hgt.values());
    lattices.addAll(tiffs.lattices());
    return new Opened(new ElevationSurface(lattices, cache), files, List.copyOf(problems));
  }

  private static List<Path> files(List<Path> filesAndFolders) throws IOException {
    List<Path> files = new ArrayList<>();
    for (Path path : filesAndFolders) {
      if (Files.isDirectory(path)) {
        try (Stream<Path> walk = Files.walk(path)) {
          walk.filter(Files::isRegularFile)
              .filter(file -> isElevation(file.getFileName().toString()))
              .sorted()
              .forEach(files::add);
        }
      } else {
        files.add(path);
      }
    }
    return files;
  }

  private static boolean isElevation(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return HgtFile.looksLike(lower) || isTiff(lower);
  }

  private static boolean isTiff(String lowerCaseName) {
    return lowerCaseName.endsWith(".tif") || lowerCaseName.endsWith(".tiff");
  }

  private static void add(HgtFile tile, Map<Integer, Lattice> lattices, PostCache cache) {
    lattices
        .computeIfAbsent(
            tile.cells(),
            cells -> new Lattice(HgtFile.mapping(cells), cells, METRES_PER_DEGREE / cells, 360))
        .put(tile.chunkCol(), tile.chunkRow(), new Chunk(tile.cells(), tile::posts, cache));
  }

  @Override
  public OptionalDouble groundM(GeoPoint place) {
    for (Lattice lattice : finestFirst) {
      OptionalDouble height = lattice.groundM(place);
      if (height.isPresent()) {
        return height;
      }
    }
    return OptionalDouble.empty();
  }

  /**
   * How much of the files is in memory now.
   *
   * @return bytes of posts
   */
  public long bytesInMemory() {
    return cache.bytes();
  }

  List<Lattice> finestFirst() {
    return finestFirst;
  }

  PostCache cache() {
    return cache;
  }
}
