// Oracle: the character references of the HTML Living Standard, section 13.2; JSON read back by
// nlohmann/json.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/html_text.hpp"

namespace idlepoint::tests {

TEST_CASE("What opens an element, an attribute or a reference is written as a reference",
          "[report][published]") {
  CHECK(report::html_text("<script>alert('a & \"b\"')</script>") ==
        "&lt;script&gt;alert(&#39;a &amp; &quot;b&quot;&#39;)&lt;/script&gt;");
  CHECK(report::html_text("&lt;") == "&amp;lt;");
}

TEST_CASE("Plain text of any script stays as it is, control characters do not",
          "[report][identity]") {
  CHECK(report::html_text("47 \xC2\xB5"
                          "F, na\xC3\xAFve") ==
        "47 \xC2\xB5"
        "F, na\xC3\xAFve");
  CHECK(report::html_text(std::string_view("a\0b\x1b[1mc\x7f\td\n", 12)) == "a?b?[1mc?\td\n");
}

TEST_CASE("JSON inside a script element holds no character that could close it, and stays the same",
          "[report][identity]") {
  const nlohmann::json object = {{"title", "</script><!-- & \xE2\x80\xA8 \xE2\x80\xA9 -->"}};
  const std::string script = report::json_in_script(object.dump());
  CHECK(script.find_first_of("<>&") == std::string::npos);
  CHECK(script.find("\xE2\x80\xA8") == std::string::npos);
  CHECK(nlohmann::json::parse(script) == object);
}

}  // namespace idlepoint::tests
