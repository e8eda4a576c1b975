namespace Lampblack.Cli.Commands;

/// <summary>
/// The scripts ask the program itself through its directive <c>[suggest:position]</c>, so that they never fall behind it. The directive wants
/// the line without the program's own name, and the position counted from there.
/// </summary>
internal static class CompletionScripts
{
    private const string Bash = """
        # lampblack completion for bash: source <(lampblack completion bash)
        _lampblack() {
            local line="${COMP_LINE:0:$COMP_POINT}" program="${COMP_WORDS[0]}" IFS=$'\n'
            local rest="${line#*"$program"}"
            rest="${rest# }"
            COMPREPLY=( $(compgen -W "$("$program" "[suggest:${#rest}]" "$rest" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}") )
        }
        complete -o bashdefault -o default -F _lampblack lampblack ./lampblack
        """;

    private const string Zsh = """
        # lampblack completion for zsh: source <(lampblack completion zsh), after compinit
        _lampblack() {
            local line="${(j: :)words[2,CURRENT]}"
            local -a candidates
            candidates=("${(@f)$("${words[1]}" "[suggest:${#line}]" "$line" 2>/dev/null)}")
            compadd -a candidates
            _files
        }
        compdef _lampblack lampblack
        """;

    private const string Fish = """
        # lampblack completion for fish: lampblack completion fish | source
        function __lampblack_complete
            set -l words (commandline -opc)
            set -l line (string join ' ' -- $words[2..-1] (commandline -ct))
            $words[1] "[suggest:"(string length -- "$line")"]" "$line" 2>/dev/null
        end
        complete -c lampblack -a '(__lampblack_complete)'
        """;

    private const string PowerShell = """
        # lampblack completion for pwsh: lampblack completion pwsh | Out-String | Invoke-Expression
        Register-ArgumentCompleter -Native -CommandName lampblack -ScriptBlock {
            param($word, $ast, $position)
            $program = $ast.CommandElements[0].Extent.Text
            $line = $ast.ToString()
            if ($line.Length -lt $position) { $line = $line.PadRight($position) }
            $rest = $line.Substring($program.Length).TrimStart()
            & $program "[suggest:$($rest.Length)]" $rest 2>$null | Where-Object { $_ -like "$word*" } | ForEach-Object {
                [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)
            }
        }
        """;

    /// <summary>The script for a shell.</summary>
    /// <param name="shell"><c>bash</c>, <c>zsh</c>, <c>fish</c> or <c>pwsh</c>.</param>
    internal static string For(string shell) => shell switch
    {
        "bash" => Bash,
        "zsh" => Zsh,
        "fish" => Fish,
        _ => PowerShell,
    };
}
