package org.lightledger.bench;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import com.drew.metadata.Metadata;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.util.concurrent.TimeUnit;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.UnreadableImageException;
import org.lightledger.testing.Reference;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/**
 * What reading one file's evidence costs, next to the general reader of the library on the same
 * bytes. Run the main method with the test class path.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class EvidenceBench {
  /** A phone, a phone's whole file, a camera with maker notes, a position in XMP only. */
  @Param({
    "mei/Apple iPhone 6.jpg",
    "mei/Nexus 4.jpg",
    "exiftool/Canon1DmkIII.jpg",
    "mei/Sony DSC-HX5V (2).jpg",
    "mei/Nikon D5000.jpg"
  })
  private String file = "";

  private byte[] content = new byte[0];

  /** Reads the file once. */
  @Setup
  public void load() throws IOException {
    content = Files.readAllBytes(Reference.path("photos/" + file));
  }

  /** This project's reader. */
  @Benchmark
  public Evidence evidence() throws UnreadableImageException {
    return EvidenceReader.read(content);
  }

  /** The library's general reader. */
  @Benchmark
  public Metadata allMetadata() throws ImageProcessingException, IOException {
    return ImageMetadataReader.readMetadata(new ByteArrayInputStream(content), content.length);
  }

  /** Runs the comparison. */
  public static void main(String[] args) throws RunnerException {
    new Runner(
            new OptionsBuilder()
                .include("\\." + EvidenceBench.class.getSimpleName() + "\\.")
                .build())
        .run();
  }
}
