package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.share.ShareSubject;

/**
 * Text that tries to be markup, a query or a template, in every field of every form. The fields are
 * read off the pages themselves, so that a new one is attacked by itself.
 */
class InjectionAttackTest {
  private static final Pattern FIELD =
      Pattern.compile("<(?:input|textarea|select|button)[^>]*\\sname=\"([^\"]+)\"");

  private static final List<String> MARKUP =
      List.of(
          "<zz-probe onload=1>",
          "\"><zz-probe a=\"",
          "'><zz-probe a='",
          "</title></textarea></script></style><zz-probe>",
          "\" onfocus=zzprobe() autofocus=\"",
          "' onfocus=zzprobe() autofocus='",
          "javascript:zzprobe()",
          "<!--<zz-probe>",
          "]]><zz-probe>",
          "<svg/onload=zzprobe()>",
          "<img src=x onerror=zzprobe()>",
          "\u003cscript\u003ezzprobe()\u003c/script\u003e",
          "${7*7}<zz-probe>!{7*7}@template.error()",
          "{{7*7}}<zz-probe>",
          "\u2028<zz-probe>\u2029",
          "%3Czz-probe%3E<zz-probe>");

  /**
   * What must never stand on a page: a tag or an attribute of the probe that a browser would see.
   */
  private static final Pattern LIVE =
      Pattern.compile(
          "<zz-probe|<svg/onload|<img src=x|<script>zz|(?:href|src|action)=\"\\s*javascript:");

  private static final Pattern TAG = Pattern.compile("<[a-zA-Z](?:\"[^\"]*\"|'[^']*'|[^\"'>])*>");
  private static final Pattern VALUE = Pattern.compile("\"[^\"]*\"|'[^']*'");
  private static final Pattern HANDLER = Pattern.compile("\\s(on[a-z]+|autofocus)\\s*=");

  /** What of a probe a browser would take for a tag, an address or a handler. */
  private static List<String> live(String page) {
    List<String> found = new ArrayList<>(LIVE.matcher(page).results().map(m -> m.group()).toList());
    TAG.matcher(page)
        .results()
        .map(tag -> VALUE.matcher(tag.group()).replaceAll("\"\""))
        .filter(tag -> HANDLER.matcher(tag).find())
        .forEach(found::add);
    return found;
  }

  private static final List<String> QUERIES =
      List.of(
          "' OR '1'='1",
          "'; DROP TABLE spots; --",
          "1; DELETE FROM shots",
          "1 UNION SELECT value FROM settings",
          "') UNION SELECT name, value FROM settings --",
          "\"; VACUUM; --",
          "1) OR (1=1",
          "%' OR name LIKE '%",
          "x' AND randomblob(1000000000) AND '1'='1",
          "\\'; ATTACH DATABASE 'planted' AS x; --",
          "NULL",
          "\u0000",
          "\ud800",
          "1e999",
          "-0",
          "9223372036854775808");

  @TempDir Path folder;

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  /** Every name that a form field of any page has. */
  private static Set<String> fields(Map<String, String> pages) {
    Set<String> names = new TreeSet<>();
    for (String page : pages.values()) {
      Matcher matcher = FIELD.matcher(page);
      while (matcher.find()) {
        names.add(matcher.group(1));
      }
    }
    return names;
  }

  private static Map<String, String> pages(LockedSite locked, RawClient client) {
    Map<String, String> pages = new LinkedHashMap<>();
    for (Routes.Route route : Routes.reading(locked.site().server().ownerPages())) {
      for (String id : List.of("1", "2", "3", "4")) {
        String target = route.with(id);
        RawClient.Answer answer = locked.get(client, target);
        assertThat(answer.status()).as(target).isBetween(200, 499);
        pages.put(target, answer.body());
      }
    }
    return pages;
  }

  @Test
  void noMarkupOfAnyFieldComesAliveOnAnyPage() {
    try (LockedSite locked = new LockedSite(folder)) {
      RawClient client = locked.client();
      Set<String> names = fields(pages(locked, client));
      assertThat(names).hasSizeGreaterThan(50);
      store(locked, client);
      for (Routes.Route route : Routes.of(locked.site().server().ownerPages())) {
        for (int i = 0; i < 4 && !route.path().equals("/logout"); i++) {
          int first = client.sent();
          String form =
              names.stream()
                  .map(
                      name ->
                          name + "=" + encoded(MARKUP.get((first + name.length()) % MARKUP.size())))
                  .collect(Collectors.joining("&"));
          RawClient.Answer answer =
              route.reads()
                  ? locked.get(client, route.with("1") + "?" + form)
                  : route.path().matches(".*(delete|remove|revoke|join|split)")
                      ? locked.post(client, route.with("99"), form)
                      : locked.post(client, route.with("1"), form);
          assertThat(answer.status()).as(route.toString()).isBetween(200, 499);
          assertThat(live(answer.whole())).as(route.toString()).isEmpty();
        }
      }
      int shown = 0;
      for (Map.Entry<String, String> page : pages(locked, client).entrySet()) {
        assertThat(live(page.getValue())).as(page.getKey()).isEmpty();
        shown += page.getValue().contains("&lt;zz-probe") ? 1 : 0;
      }
      assertThat(shown).as("pages that show a probe as text").isGreaterThan(5);
      String token =
          locked
              .site()
              .ledger()
              .read(session -> session.shares().of(ShareSubject.shortlist(1)))
              .get(0)
              .token();
      RawClient clients = new RawClient(locked.site().sharePort());
      String shared = clients.get("/s/" + token, "X-Forwarded-For: 198.51.100.4").body();
      assertThat(shared).contains("&lt;zz-probe");
      assertThat(live(shared)).isEmpty();
    }
  }

  /**
   * Puts a probe into each field that is kept, one after the other, with the rest as it should be.
   */
  private static void store(LockedSite locked, RawClient client) {
    int kept = 0;
    for (String probe : MARKUP) {
      String text = encoded(probe);
      for (String[] form :
          new String[][] {
            {"/spots/1", "name=" + text + "&area=" + text + "&notes=" + text + "&cautions=" + text},
            {"/spots/2", "name=Wall&area=x&notes=" + text + "&cautions=" + text},
            {"/shortlists", "title=" + text},
            {"/shortlists/1", "title=" + text + "&message=" + text},
            {"/shortlists/1/entries/1", "words=" + text + "&cover=1"},
            {"/questions", "keep-name=" + text + "&query=light%3Dbacklit"},
            {
              "/surroundings/obstructions",
              "name="
                  + text
                  + "&kind=building&shape=outline&height=5&corners="
                  + "41.9501,-6.6101%0A41.9501,-6.6100%0A41.9502,-6.6100"
            }
          }) {
        RawClient.Answer answer = locked.post(client, form[0], form[1]);
        assertThat(answer.status()).as("%s %s", form[0], probe).isIn(200, 303, 422);
        kept += answer.status() == 303 ? 1 : 0;
      }
    }
    assertThat(kept).as("forms with a probe that were kept").isGreaterThan(6 * MARKUP.size());
  }

  @Test
  void noQueryInAnyFieldReachesTheLedgersOwnWords() {
    try (LockedSite locked = new LockedSite(folder)) {
      RawClient client = locked.client();
      Set<String> names = fields(pages(locked, client));
      names.addAll(List.of("q", "only", "sort", "order", "near", "list", "w", "v", "exact", "to"));
      Map<String, String> before = LedgerState.of(locked.site().ledgerFolder());
      for (Routes.Route route : Routes.of(locked.site().server().ownerPages())) {
        if (!route.takesParameters() && !route.reads() || route.path().equals("/logout")) {
          continue;
        }
        for (String query : QUERIES) {
          String text = encoded(query);
          String form =
              names.stream().map(name -> name + "=" + text).collect(Collectors.joining("&"));
          String target = route.with(route.reads() ? text.replace("+", "%20") : "99");
          RawClient.Answer answer =
              route.reads()
                  ? locked.get(client, target + "?" + form)
                  : locked.post(client, target, form);
          assertThat(answer.status()).as("%s with %s", route, query).isBetween(200, 499);
          assertThat(answer.body()).doesNotContain("$argon2id", "SQLITE", "sqlite");
        }
        if (route.reads()) {
          Set<String> own = fields(Map.of("", locked.get(client, route.with("1")).body()));
          for (String name : own) {
            String text = encoded(QUERIES.get(client.sent() % QUERIES.size()));
            RawClient.Answer answer = locked.get(client, route.with("1") + "?" + name + "=" + text);
            assertThat(answer.status()).as("%s?%s=%s", route, name, text).isBetween(200, 499);
          }
        }
      }

      assertThat(client.sent()).isGreaterThan(1000);
      assertThat(LedgerState.of(locked.site().ledgerFolder())).isEqualTo(before);
      LedgerState.assertSound(locked.site().ledgerFolder());
    }
  }
}
