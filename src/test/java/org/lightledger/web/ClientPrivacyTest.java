package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.SharedPage;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SpaEphemeris;

/** Nothing private is in any byte that a stranger with a link or a file gets. */
class ClientPrivacyTest {
  private static final Pattern ADDRESS = Pattern.compile("(?:src|href|action)=\"([^\"]*)\"");
  private static final Pattern TAG =
      Pattern.compile("<(script|style)>.*?</\\1>|<[^>]*>", Pattern.DOTALL);

  @TempDir static Path folder;
  private static SharedWorld world;

  @BeforeAll
  static void open() {
    world = new SharedWorld(folder);
  }

  @AfterAll
  static void close() {
    world.close();
  }

  /** A private word as it stands, and as addresses, HTML and Base64 would write it. */
  private static List<String> spellings(String word) {
    byte[] bytes = word.getBytes(StandardCharsets.UTF_8);
    List<String> spellings = new ArrayList<>(List.of(word));
    spellings.add(URLEncoder.encode(word, StandardCharsets.UTF_8));
    spellings.add(word.replace("@", "&#64;").replace("/", "&#47;"));
    StringBuilder numbers = new StringBuilder();
    word.chars().forEach(c -> numbers.append("&#").append(c).append(';'));
    spellings.add(numbers.toString());
    for (int skip = 0; skip < 3 && bytes.length > skip + 6; skip++) {
      int length = (bytes.length - skip) / 3 * 3;
      byte[] part = Arrays.copyOfRange(bytes, skip, skip + length);
      spellings.add(Base64.getEncoder().encodeToString(part));
    }
    return spellings;
  }

  private static void assertClean(String name, String served) {
    String raw = served.toLowerCase(Locale.ROOT);
    List<String> words = new ArrayList<>(SharedWorld.PRIVATE);
    words.addAll(SharedWorld.PLACES);
    words.add(folder.toString());
    for (String word : words) {
      for (String spelling : spellings(word)) {
        assertThat(raw.contains(spelling.toLowerCase(Locale.ROOT)))
            .as("%s holds \"%s\" as %s", name, word, spelling)
            .isFalse();
      }
    }
  }

  /** The page, and all that it leads to on its listener. */
  private static Map<String, SharedWorld.Served> everything(Share share) {
    Map<String, SharedWorld.Served> served = new LinkedHashMap<>();
    List<String> waiting = new ArrayList<>(List.of(world.link(share)));
    while (!waiting.isEmpty()) {
      String address = waiting.remove(0);
      SharedWorld.Served answer = world.get(address);
      served.put(address, answer);
      Matcher matcher = ADDRESS.matcher(answer.text());
      while (answer.raw().strip().startsWith("<!doctype") && matcher.find()) {
        String next = matcher.group(1);
        String whole = "http://127.0.0.1:" + world.site.sharePort() + next;
        if (next.startsWith("/") && !served.containsKey(whole)) {
          waiting.add(whole);
        }
      }
    }
    return served;
  }

  @Test
  void noByteOfASharedSessionOrShortlistIsPrivate() {
    for (ShareSubject subject :
        List.of(ShareSubject.session(world.sessionId), ShareSubject.shortlist(world.listId))) {
      Share share = world.share(subject, false, false);
      byte[] outfit = SharedWorld.marked(TestPhotos.shot(null, "", 41.954, -6.604, 10.0, 1));
      assertThat(world.upload(world.link(share) + "/outfits", List.of(), outfit).status())
          .isEqualTo(303);
      Map<String, SharedWorld.Served> served = everything(share);
      assertThat(served.keySet())
          .anyMatch(address -> address.endsWith("/picture/1"))
          .anyMatch(address -> address.matches(".*/outfits/\\d+"));
      served.forEach((address, answer) -> assertClean(address, answer.raw()));
      assertThat(served.get(world.link(share)).text()).contains("Mill race", "wet steps");
    }
  }

  @Test
  void noByteOfASingleFileIsPrivate() {
    for (ShareSubject subject :
        List.of(ShareSubject.session(world.sessionId), ShareSubject.shortlist(world.listId))) {
      Share share = world.share(subject, true, false);
      String html = ShareFile.html(world.site.ledger(), new SpaEphemeris(), share.id());
      assertThat(html).contains("Mill race", share.keys().secret()).doesNotContain(share.token());
      assertClean("file of " + subject, html);
      Matcher pictures = Pattern.compile("base64,([A-Za-z0-9+/=]+)").matcher(html);
      assertThat(pictures.find()).isTrue();
      byte[] jpeg = Base64.getDecoder().decode(pictures.group(1));
      assertClean("its picture", new String(jpeg, StandardCharsets.ISO_8859_1));
      assertThat(new String(jpeg, StandardCharsets.ISO_8859_1)).doesNotContain("Exif", "http:");
    }
  }

  @Test
  void whatIsReadOnThePageIsOnTheListOfWhatMayBeSeen() {
    Share share = world.share(ShareSubject.session(world.sessionId), false, false);
    SharedPage view =
        world
            .site
            .ledger()
            .read(session -> new ShareReader(new SpaEphemeris()).view(session, share))
            .orElseThrow();
    String shown = plain(world.get(world.link(share)).text());
    Share empty = world.share(ShareSubject.shortlist(emptyList()), false, false);
    List<String> allowed = new ArrayList<>(List.of(view.title(), view.day()));
    allowed.add(view.meeting().words());
    allowed.add(view.meeting().hour());
    allowed.add(view.meeting().end());
    allowed.add(SpotViews.position(view.meeting().place()));
    for (SharedPage.SharedSpot spot : view.spots()) {
      assertThat(spot.position()).isNull();
      allowed.add(spot.name());
      allowed.add(spot.hour());
      spot.outfits().forEach(outfit -> allowed.add("Outfit " + outfit));
      allowed.add(spot.light() == null ? "" : spot.light());
      allowed.add(spot.cautions());
    }
    view.questions().forEach(question -> allowed.add(question.words()));
    for (Trait trait : Trait.values()) {
      allowed.add(trait.label());
    }
    List<String> words = new ArrayList<>(allowed);
    words.sort(Comparator.comparingInt(String::length).reversed());
    String rest = shown;
    for (String word : words) {
      rest = word.isEmpty() ? rest : rest.replace(word, " ");
    }
    String fixed = plain(world.get(world.link(empty)).text()) + FIXED;
    for (String left : rest.split("[^\\p{L}\\p{N}.,:°-]+")) {
      assertThat(fixed).as("left on the page: " + left).contains(left);
    }
  }

  /** The page's own words around what the view holds. */
  private static final String FIXED =
      " 1 2 stops Meet at until about Good to know: What you think of One of my favourites Outfits 2, 3 Your words"
          + " on it Before we meet And in words to ";

  private static long emptyList() {
    return world.site.ledger().write(session -> session.shortlists().create("Nothing", ""));
  }

  private static String plain(String html) {
    return TAG.matcher(html.substring(html.indexOf("<body>")))
        .replaceAll(" ")
        .replace("&amp;", "&")
        .replace("&#39;", "'");
  }
}
