#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/terminal/practise/pupil_file.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {

struct PupilArguments {
    std::string name, other, file;
    bool force = false;
};

constexpr std::uintmax_t most_bytes = 100'000'000;

constexpr const char* pupil_examples =
    "Each pupil has a player file and a memory of their own; --pupil NAME uses them, with any\n"
    "command. What is done without it are your own putts; rename gives them a pupil's name.\n"
    "Examples:\n"
    "  dewtrail pupil add Anna\n"
    "  dewtrail practise --pupil Anna\n"
    "  dewtrail window --pupil Anna\n"
    "  dewtrail pupil rename 'my own putts' Ben\n"
    "      What was practised without a name becomes Ben's: player file, memory and lessons.\n"
    "  dewtrail pupil export Anna anna.json";

/// `name`: nobody's where it is empty.
PupilRecord record_of(const Session& session, const std::string& name) {
    const Memory memory(memory_folder_of(name),
                        [&](const std::string& words) { session.err() << words << '\n'; });
    return {name, load_player(player_file_of(name)), memory.answers(), memory.putts(),
            memory.measures()};
}

std::vector<std::string> row_of(const std::string& name, const PupilRecord& pupil) {
    return {name, counted(pupil.answers.size(), "putt practised", "putts practised"),
            counted(pupil.putts.size(), "putt logged", "putts logged")};
}

Exit list_pupils(Session& session, const PupilArguments&) {
    const Pupils pupils = pupils_here();
    Json list = Json::array();
    std::vector<std::vector<std::string>> table;
    for (const std::string& name : pupils.names()) {
        const PupilRecord pupil = record_of(session, name);
        list.push_back(
            {{"name", name}, {"answers", pupil.answers.size()}, {"putts", pupil.putts.size()}});
        table.push_back(row_of(name, pupil));
    }
    Json own;
    if (has_own_putts()) try {
            const PupilRecord nobody = record_of(session, "");
            own = {{"answers", nobody.answers.size()}, {"putts", nobody.putts.size()}};
            table.push_back(row_of(own_putts, nobody));
        } catch (const std::runtime_error& error) {  // the pupils are there all the same
            session.err() << own_putts << ": " << error.what() << '\n';
        }
    if (session.json()) {
        session.print({{"pupils", list}, {"own", own}});
        return Exit::done;
    }
    print_table(session.out(), table);
    if (list.empty())
        session.out() << "There are no pupils yet. Add one: dewtrail pupil add Anna\n";
    if (!own.is_null())
        session.out() << fmt::format("A name for {0}: dewtrail pupil rename '{0}' Anna\n",
                                     own_putts);
    return Exit::done;
}

Exit add_one(Session& session, const PupilArguments& arguments) {
    add_pupil(arguments.name, session.units());
    if (session.json())
        session.print({{"added", arguments.name}});
    else
        session.out() << fmt::format("{0} is there. Next: dewtrail practise --pupil '{0}'\n",
                                     arguments.name);
    return Exit::done;
}

Exit rename_pupil(Session& session, const PupilArguments& arguments) {
    const bool own = lower_case(arguments.name) == own_putts;
    if (own)
        adopt_own_putts(arguments.other, session.units());
    else
        pupils_here().rename(arguments.name, arguments.other);
    if (session.json())
        session.print({{"renamed", arguments.name}, {"to", arguments.other}});
    else
        session.out() << fmt::format("{} {} now: --pupil '{}'\n",
                                     own ? "Your own putts are" : arguments.name + " is",
                                     arguments.other + (own ? "'s" : ""), arguments.other);
    return Exit::done;
}

Exit export_pupil(Session& session, const PupilArguments& arguments) {
    const PupilRecord pupil = record_of(session, arguments.name);
    check_may_write(arguments.file, arguments.force);
    save_whole_file(arguments.file, write_pupil(pupil));
    if (session.json())
        session.print({{"exported", pupil.name}, {"file", arguments.file}});
    else
        session.out() << fmt::format("{}, {} and {}, is in {}.\n", pupil.name,
                                     counted(pupil.answers.size(), "answer"),
                                     counted(pupil.putts.size(), "putt"), arguments.file);
    return Exit::done;
}

/// To a pupil who is there already what is new is added; the player file stays as it is.
Exit import_pupil(Session& session, const PupilArguments& arguments) {
    PupilRecord pupil = read_pupil(arguments.file, read_text_file(arguments.file, most_bytes));
    if (!arguments.name.empty()) pupil.name = arguments.name;
    const Pupils pupils = pupils_here();
    if (!pupils.has(pupil.name)) pupils.add(pupil.name, pupil.player);
    Memory memory(pupils.folder(pupil.name));
    const int answers = memory.add(pupil.answers), putts = memory.add(pupil.putts);
    const int measured = memory.add(pupil.measures);
    if (session.json())
        session.print({{"imported", pupil.name},
                       {"answers", answers},
                       {"putts", putts},
                       {"measured", measured}});
    else
        session.out() << fmt::format("{}: {}, {} and {} added.\n", pupil.name,
                                     counted(answers, "answer"), counted(putts, "putt"),
                                     counted(measured, "measured ball"));
    return Exit::done;
}

}  // namespace

void add_pupil_command(const Command& app, Session& session) {
    auto a = std::make_shared<PupilArguments>();
    const Command command = app.add_subcommand("pupil", "A coach's pupils, each kept apart");
    command.footer(pupil_examples);
    command.require_subcommand(1);
    using Run = Exit (*)(Session&, const PupilArguments&);
    const auto part = [&](const char* name, const char* what, Run run) {
        const Command sub = command.add_subcommand(name, what);
        session.add_common_options(sub);
        sub.callback(
            [&session, a, run] { session.run = [&session, a, run] { return run(session, *a); }; });
        return sub;
    };
    part("list", "All of them, and how much they have played", list_pupils);
    part("add", "A new pupil", add_one).add_option("name", a->name, "Their name").required();
    const Command rename = part("rename", "Another name for a pupil", rename_pupil);
    rename.add_option("name", a->name, "The name so far, or 'my own putts'").required();
    rename.add_option("to", a->other, "The new name").required();
    const Command to = part("export", "All of one pupil as one file", export_pupil);
    to.add_option("name", a->name, "Whose").required();
    to.add_option("file", a->file, "Where to: anna.json").required();
    to.add_flag("--force", a->force, "Replace a file that is there");
    const Command from =
        part("import", "A pupil from such a file, or what is new of them", import_pupil);
    from.add_option("file", a->file, "The file").required();
    from.add_option("--as", a->name, "Under another name");
}

}  // namespace dewtrail
