// Mustache templates that never print a blank for a forgotten name.
//
//   Templates templates(files);                        // "page.mustache" -> text
//   std::string html = templates.render("page.mustache", model, language);
//   if (!templates.faults().empty()) ...               // page.mustache:12: nothing is called "titel"
//
// A name is looked up in the model from the inside out, then among the words of the language (so a
// template may say {{ui.next}}). Sections too must exist: set a flag to false or a list to empty.
// {{> part}} includes part.mustache as it stands. Comments and indentation are taken out.
//
// Several threads may render at the same time.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"
#include "lib/texts.h"
#include "render/model.h"

namespace tenwinters {

class Templates {
 public:
  struct Asked {
    std::vector<std::string> words, prose;  // keys
  };

  // Names as templates are called by, such as "page.mustache"; `folder` goes before them in faults.
  Templates(std::map<std::string, std::string> files, std::string folder);
  ~Templates();
  Templates(const Templates&) = delete;
  Templates& operator=(const Templates&) = delete;

  // The text, or what could be made of it when faults() has grown. `asked`: what it took from the language.
  [[nodiscard]] std::string render(const std::string& name, const Model& model, const Language& language, Asked* asked = nullptr);

  // All that a template is made of, parts put in: what it prints depends on this, the model and the language alone.
  [[nodiscard]] std::string source(const std::string& name);

  // Missing names, broken tags, unknown templates; each once. Not while a thread renders.
  [[nodiscard]] const std::vector<Diagnostic>& faults() const { return faults_; }

 private:
  struct Parsed;
  Parsed* parse(const std::string& name);
  // Includes partials, and gives every tag its file and line: {{name}} -> {{name|page.mustache:12}}.
  bool flatten(const std::string& name, std::vector<std::string>& chain, std::string& out, std::string& source);
  void fault(std::string_view file, int line, std::string message);

  const std::map<std::string, std::string> files_;
  const std::string folder_;
  std::mutex held_;                                         // guards what follows
  std::map<std::string, std::unique_ptr<Parsed>> parsed_;   // by name; null: broken
  std::vector<Diagnostic> faults_;
};

}  // namespace tenwinters
