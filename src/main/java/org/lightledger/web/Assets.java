package org.lightledger.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The style sheets and scripts, kept in memory. An address holds the fingerprint of the content, so
 * a browser may keep the content for ever and still sees every change at once.
 */
public final class Assets {
  private static final String OWN = "web/static/";
  private static final String JARS = "META-INF/resources/webjars/";
  private static final Map<String, String> PLACES =
      Map.ofEntries(
          Map.entry("tokens.css", OWN + "tokens.css"),
          Map.entry("app.css", OWN + "app.css"),
          Map.entry("forms.css", OWN + "forms.css"),
          Map.entry("charts.css", OWN + "charts.css"),
          Map.entry("ask.css", OWN + "ask.css"),
          Map.entry("answers.css", OWN + "answers.css"),
          Map.entry("maps.css", OWN + "maps.css"),
          Map.entry("pages.css", OWN + "pages.css"),
          Map.entry("spot.css", OWN + "spot.css"),
          Map.entry("plans.css", OWN + "plans.css"),
          Map.entry("sky.css", OWN + "sky.css"),
          Map.entry("import.css", OWN + "import.css"),
          Map.entry("attention.css", OWN + "attention.css"),
          Map.entry("lists.css", OWN + "lists.css"),
          Map.entry("share.css", OWN + "share.css"),
          Map.entry("share.js", OWN + "share.js"),
          Map.entry("sharing.css", OWN + "sharing.css"),
          Map.entry("sessions.css", OWN + "sessions.css"),
          Map.entry("draw.css", OWN + "draw.css"),
          Map.entry("outgoing.css", OWN + "outgoing.css"),
          Map.entry("callsheet-print.css", OWN + "callsheet-print.css"),
          Map.entry("login.css", OWN + "login.css"),
          Map.entry("exchange.css", OWN + "exchange.css"),
          Map.entry("field.css", OWN + "field.css"),
          Map.entry("field.js", OWN + "field.js"),
          Map.entry("field-now.js", OWN + "field-now.js"),
          Map.entry("field-compass.js", OWN + "field-compass.js"),
          Map.entry("field-queue.js", OWN + "field-queue.js"),
          Map.entry("field-worker.js", OWN + "field-worker.js"),
          Map.entry("field-192.png", OWN + "field-192.png"),
          Map.entry("field-512.png", OWN + "field-512.png"),
          Map.entry("draw.js", OWN + "draw.js"),
          Map.entry("page.js", OWN + "page.js"),
          Map.entry("map.js", OWN + "map.js"),
          Map.entry("shape.js", OWN + "shape.js"),
          Map.entry("graticule.js", OWN + "graticule.js"),
          Map.entry("basemap.js", OWN + "basemap.js"),
          Map.entry("import.js", OWN + "import.js"),
          Map.entry("attention.js", OWN + "attention.js"),
          Map.entry("tap.js", OWN + "tap.js"),
          Map.entry("mark.svg", OWN + "mark.svg"),
          Map.entry("htmx.js", JARS + "htmx.org/2.0.10/dist/htmx.min.js"),
          Map.entry("leaflet.js", JARS + "leaflet/1.9.4/dist/leaflet.js"),
          Map.entry("leaflet.css", JARS + "leaflet/1.9.4/dist/leaflet.css"));

  private static final String SCRIPT = "text/javascript; charset=utf-8";
  private static final Map<String, String> TYPES =
      Map.of(".css", "text/css; charset=utf-8", ".svg", "image/svg+xml", ".png", "image/png");

  private final Map<String, Asset> assets;

  private Assets(Map<String, Asset> assets) {
    this.assets = assets;
  }

  private record Asset(byte[] content, String type, String fingerprint) {}

  /**
   * Reads all assets from the class path.
   *
   * @return the assets
   * @throws IllegalStateException when one is missing from the build
   */
  public static Assets load() {
    Map<String, Asset> assets = new LinkedHashMap<>();
    PLACES.forEach((name, place) -> assets.put(name, read(name, place)));
    return new Assets(assets);
  }

  /**
   * The address of an asset.
   *
   * @param name its file name
   * @return a path that changes with the content
   */
  public String url(String name) {
    return "/static/" + asset(name).fingerprint() + "/" + name;
  }

  /** The content of a text asset. */
  String text(String name) {
    return new String(asset(name).content(), StandardCharsets.UTF_8);
  }

  /** Serves an asset; an old fingerprint is not found. */
  void serve(Context ctx) {
    String name = ctx.pathParam("name");
    Asset asset = assets.get(name);
    if (asset == null || !asset.fingerprint().equals(ctx.pathParam("fingerprint"))) {
      throw PageProblem.notFound("There is no such file in this version.");
    }
    ctx.header("Cache-Control", "public, max-age=31536000, immutable");
    ctx.contentType(asset.type()).result(asset.content());
  }

  /** The content security policy's name for an inline style sheet or script with this content. */
  static String inlineHash(String content) {
    return "'sha256-" + Base64.getEncoder().encodeToString(sha256(utf8(content))) + "'";
  }

  private Asset asset(String name) {
    Asset asset = assets.get(name);
    if (asset == null) {
      throw new IllegalArgumentException("expected the name of an asset, found " + name);
    }
    return asset;
  }

  private static Asset read(String name, String place) {
    try (InputStream in = Assets.class.getClassLoader().getResourceAsStream(place)) {
      if (in == null) {
        throw new IllegalStateException("expected " + place + " in the build, found nothing");
      }
      byte[] content = in.readAllBytes();
      String type = TYPES.getOrDefault(name.substring(name.lastIndexOf('.')), SCRIPT);
      return new Asset(content, type, HexFormat.of().formatHex(sha256(content), 0, 6));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] sha256(byte[] content) {
    try {
      return MessageDigest.getInstance("SHA-256").digest(content);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
