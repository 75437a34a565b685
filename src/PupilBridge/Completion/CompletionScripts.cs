namespace PupilBridge.Completion;

/// <summary>
/// The scripts that join a shell's completion to the program. Each hands the line up to the cursor to the
/// <c>[suggest:POSITION]</c> directive, which answers with one word a line; the tree of commands stays the only place
/// that knows the words.
/// </summary>
internal static class CompletionScripts
{
    private static readonly Dictionary<string, string> Scripts = new(StringComparer.Ordinal)
    {
        ["bash"] = Bash,
        ["zsh"] = Zsh,
        ["pwsh"] = PowerShell,
        ["fish"] = Fish,
    };

    /// <summary>The shells that there is a script for.</summary>
    public static IReadOnlyCollection<string> Shells => Scripts.Keys;

    /// <summary>The script for a shell.</summary>
    /// <param name="shell">One of <see cref="Shells"/>.</param>
    /// <returns>The whole script, ending in a line feed.</returns>
    public static string For(string shell) => Scripts[shell];

    private const string Bash = """
        # Completion of pupilbridge for bash: source <(pupilbridge completion bash)
        _pupilbridge() {
            local word=${COMP_WORDS[COMP_CWORD]} line=${COMP_LINE:0:COMP_POINT}
            local IFS=$'\n'
            COMPREPLY=($(compgen -W "$("${COMP_WORDS[0]}" "[suggest:${#line}]" "$line" 2>/dev/null)" -- "$word"))
        }
        # Where the program has nothing to offer, file names are completed.
        complete -o default -F _pupilbridge pupilbridge

        """;

    private const string Zsh = """
        #compdef pupilbridge
        # Completion of pupilbridge for zsh: source <(pupilbridge completion zsh)
        _pupilbridge() {
            local line="${BUFFER[1,$CURSOR]}"
            local -a words_offered
            words_offered=("${(@f)$(pupilbridge "[suggest:${#line}]" "$line" 2>/dev/null)}")
            if (( ${#words_offered} )) && [[ -n "${words_offered[1]}" ]]; then
                compadd -- "${words_offered[@]}"
            else
                _files
            fi
        }
        compdef _pupilbridge pupilbridge

        """;

    private const string PowerShell = """
        # Completion of pupilbridge for PowerShell: pupilbridge completion pwsh | Out-String | Invoke-Expression
        Register-ArgumentCompleter -Native -CommandName pupilbridge -ScriptBlock {
            param($word, $ast, $cursor)
            $line = $ast.ToString()
            if ($cursor -gt $line.Length) { $line = $line.PadRight($cursor) } else { $line = $line.Substring(0, $cursor) }
            pupilbridge "[suggest:$cursor]" $line 2>$null | ForEach-Object {
                [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
            }
        }

        """;

    private const string Fish = """
        # Completion of pupilbridge for fish: pupilbridge completion fish | source
        function __pupilbridge_words
            set -l line (commandline -cp)
            pupilbridge "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
        end
        complete -c pupilbridge -a '(__pupilbridge_words)'

        """;
}
