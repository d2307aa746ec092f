package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.lightledger.light.PictureContrast;

/** Tells the contrast of a shot from its preview, which is made when it is first asked for. */
final class ShotContrast {
  /** Wide enough for percentiles, and what the cards show anyway, pixels. */
  private static final int WIDTH = 480;

  private final House house;
  private final Previews previews;

  ShotContrast(House house, Previews previews) {
    this.house = house;
    this.previews = previews;
  }

  void register(RoutesConfig routes) {
    routes.get("/shots/{id}/contrast", this::get);
  }

  private void get(Context ctx) {
    long id = House.id(ctx, "id");
    if (house.ledger().read(session -> session.shots().find(id)).isEmpty()) {
      throw PageProblem.notFound("There is no shot with this number.");
    }
    house
        .pages()
        .part(
            ctx,
            "contrast",
            previews.jpeg(id, WIDTH).map(ShotContrast::words).orElse("not known: no picture"));
  }

  private static String words(byte[] jpeg) {
    return pixels(jpeg)
        .map(pixels -> PictureContrast.of(pixels).words())
        .orElse("not known: the picture can not be read");
  }

  private static Optional<int[]> pixels(byte[] jpeg) {
    try {
      BufferedImage picture = ImageIO.read(new ByteArrayInputStream(jpeg));
      return Optional.ofNullable(picture)
          .map(p -> p.getRGB(0, 0, p.getWidth(), p.getHeight(), null, 0, p.getWidth()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
