package org.lightledger.session.print;

import com.openhtmltopdf.extend.FSSupplier;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.function.DoubleFunction;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Prints pages to PDF. The letters are Liberation Sans (SIL Open Font License), which the file
 * carries: Latin, Greek, Cyrillic and Hebrew.
 */
public final class Paper {
  /** The family that a page's style names. */
  public static final String FONT = "Liberation Sans";

  private static final String FONTS = "/liberation/";

  private Paper() {}

  static {
    XRLog.setLoggingEnabled(false);
  }

  /**
   * Prints in the largest letters that take one page; where none do, in the smallest, over as many
   * pages as it takes. Nothing is cut.
   *
   * @param sizesPt sizes of letters, points, largest first, one or more
   * @param page the page for a size, well-formed XHTML that needs nothing from outside
   * @param now the present, which the file is stamped with
   * @return the PDF
   */
  public static byte[] print(List<Double> sizesPt, DoubleFunction<String> page, Instant now) {
    byte[] printed = {};
    for (double sizePt : sizesPt) {
      try (PDDocument document = Loader.loadPDF(render(page.apply(sizePt)))) {
        document
            .getDocumentInformation()
            .setCreationDate(GregorianCalendar.from(now.atZone(ZoneOffset.UTC)));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        document.save(out);
        printed = out.toByteArray();
        if (document.getNumberOfPages() == 1) {
          return printed;
        }
      } catch (IOException e) {
        throw new UncheckedIOException("the page can not be printed", e);
      }
    }
    return printed;
  }

  private static byte[] render(String html) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useFastMode();
    builder.useFont(font("LiberationSans-Regular.ttf"), FONT, 400, FontStyle.NORMAL, true);
    builder.useFont(font("LiberationSans-Bold.ttf"), FONT, 700, FontStyle.NORMAL, true);
    builder.useExternalResourceAccessControl(
        (address, type) -> address.startsWith("data:"),
        ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
    builder.withHtmlContent(html, null);
    builder.toStream(out);
    builder.run();
    return out.toByteArray();
  }

  private static FSSupplier<InputStream> font(String file) {
    return () -> {
      InputStream in = Paper.class.getResourceAsStream(FONTS + file);
      if (in == null) {
        throw new IllegalStateException("expected " + FONTS + file + " in the build, found none");
      }
      return in;
    };
  }
}
