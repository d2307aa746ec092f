package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Text that tries to become markup stays text, wherever it is shown. */
class HostileTextTest {
  static final String HOSTILE = "\"'><probe-x onload=1></title></textarea></script>${1+1}";

  @TempDir Path folder;

  @Test
  void noFieldBecomesMarkupOnAnyPage() {
    try (TestSite site = new TestSite(folder).withPhotos()) {
      site.post(
          "/spots/1", "name", HOSTILE, "area", HOSTILE, "notes", HOSTILE, "cautions", HOSTILE);
      site.post("/shortlists", "title", HOSTILE);
      site.post("/shortlists/1", "title", HOSTILE, "message", HOSTILE);
      site.post("/shortlists/keep", "spot", "1", "list", "1", "cover", "1");
      site.post("/shortlists/1/entries/1", "words", HOSTILE, "cover", "1");
      String query = URLEncoder.encode(HOSTILE, StandardCharsets.UTF_8);

      Map<String, TestSite.Answer> pages = new LinkedHashMap<>();
      for (String path :
          new String[] {
            "/",
            "/spots",
            "/spots/1",
            "/shortlists",
            "/shortlists/1",
            "/shortlists/1/preview",
            "/shortlists/1/file",
            "/?light=" + query + "&from=" + query + "&near=" + query,
            "/spots?q=" + query + "&only=" + query,
            "/" + query,
            "/spots/1?day=" + query + "&at=" + query + "&facing=" + query + "&year=" + query,
            "/surroundings?did=" + query,
            "/?list=" + query
          }) {
        pages.put(path, site.get(path));
      }
      pages.put("bad folder", site.post("/import/folder", "folder", HOSTILE));
      pages.put("bad spot", site.post("/spots/1", "name", "", "notes", HOSTILE, "area", HOSTILE));
      pages.put("bad facing", site.post("/spots/1/facings", "bearing", HOSTILE));
      pages.put("bad path", site.post("/surroundings/elevation", "path", HOSTILE));
      pages.put("bad reading", site.post("/spots/1/measured", "azimuth", HOSTILE, "altitude", "1"));
      pages.put("bad list", site.post("/spots/1/measured/list", "list", HOSTILE));
      pages.put("bad word", site.post("/shots/1/sun?word=" + query));
      pages.put(
          "kept",
          site.post("/shortlists/keep", List.of("HX-Request", "true"), "spot", "1", "list", "1"));
      pages.put("upload", site.upload(Map.of("x'><probe-x onload=1>.jpg", new byte[] {1, 2, 3})));

      pages.forEach(
          (name, page) ->
              assertThat(page.text())
                  .as(name)
                  .doesNotContain("<probe-x", "\"'>", "</title></textarea>"));
      assertThat(pages.get("/spots/1").text()).contains("&lt;probe-x");
      assertThat(pages.get("/shortlists/1/preview").text()).contains("&lt;probe-x");
    }
  }
}
