using System.Linq;

namespace Lampblack.Books;

/// <summary>How a book looks, on a phone and on paper; and the few lines that keep its ticks.</summary>
internal static class BookStyle
{
    private const string Style =
        "*{box-sizing:border-box}body{font:16px/1.45 sans-serif;color:#1d1b16;background:#fff;max-width:54rem;margin:0 auto;padding:0 1rem 4rem}"
        + "h1{font-size:1.7rem;line-height:1.2;margin:1.2rem 0 .3rem}h2{font-size:1.35rem;margin:2.4rem 0 .8rem;border-bottom:3px solid #1d1b16;padding-bottom:.2rem}h3{font-size:1.1rem;margin:0 0 .5rem}"
        + "a{color:#1b3f63}a:focus-visible,input:focus-visible{outline:3px solid #1b3f63;outline-offset:2px}code{font:.92em monospace;overflow-wrap:anywhere}p,li,dd,figcaption{overflow-wrap:anywhere}td,th{overflow-wrap:break-word}thead th{white-space:nowrap}"
        + ".code{color:#4a463c}nav ol{list-style:none;padding:0;columns:2;column-gap:2rem}nav li{margin:0;padding:.45rem 0;break-inside:avoid}nav a{display:inline-block}"
        + ".step{border:1px solid #8b8676;border-radius:4px;padding:1rem;margin:1rem 0}.kept{white-space:nowrap}"
        + "h3 label{display:flex;gap:.6rem;align-items:baseline}input[type=checkbox]{width:1.25rem;height:1.25rem;flex:none;margin:0;accent-color:#1d1b16}"
        + ".facts{margin:0 0 .6rem;font-size:.93rem}.facts div{display:flex;gap:.6rem}.facts dt{font-weight:bold;min-width:5.2rem}.facts dd{margin:0}"
        + ".caution{border-left:6px solid #1d1b16;background:#f6ecd2;padding:.5rem .8rem;margin:.6rem 0}.cautions dt{font-weight:bold;margin-top:.8rem}.cautions dd{margin:0}"
        + ".list-head{font-weight:bold;margin:.8rem 0 .2rem;font-size:.92rem}.tools{list-style:none;margin:0 0 .8rem;padding:0;columns:2;column-gap:1.5rem;font-size:.92rem}.tools li{margin:.15rem 0}.tools label{display:flex;gap:.5rem;align-items:baseline}.where{color:#4a463c}"
        + ".doings{padding-left:2.2rem}.doings li{margin:.35rem 0}"
        + ".pictures{display:flex;flex-wrap:wrap;gap:1rem;margin:.8rem 0;align-items:flex-start}figure{margin:0;min-width:0}figure img,figure svg{display:block;max-width:100%;width:100%;height:auto;border:1px solid #b9b4a5}"
        + ".small{width:8.5rem}.middle{width:15rem}.half{width:calc(50% - .5rem)}.large{width:26rem;max-width:100%}.whole{width:100%}figcaption{font-size:.88rem;margin-top:.3rem}"
        + "table{border-collapse:collapse;width:100%;margin:.8rem 0;font-size:.92rem}caption{text-align:left;font-weight:bold;padding:.2rem 0}th,td{border:1px solid #b9b4a5;padding:.3rem .45rem;text-align:left;vertical-align:top}"
        + "thead th{background:#efece3}tbody th{font-weight:normal}.tick{width:2rem;text-align:center}"
        + ".gate{border:2px solid #1d1b16;border-radius:4px;padding:.2rem .8rem;margin:.8rem 0 0}.gate p{margin:.4rem 0}.line{display:inline-block;min-width:14rem;border-bottom:1px solid #1d1b16}"
        + "@media screen and (max-width:46rem){nav ol,.tools{columns:1}thead{display:none}table,tbody,caption,tr,th,td{display:block}tr{border:1px solid #8b8676;margin:.5rem 0;padding:.3rem}tbody th,td{border:0;padding:.15rem .3rem}"
        + "tbody th::before,td[data-head]::before{content:attr(data-head) \": \";font-weight:bold}td[data-head]:empty{display:none}.tick{width:auto;text-align:left}.facts div{display:block}.small{width:8rem}.middle,.half,.large{width:100%}}"
        + "@media print{html{font-size:9.6pt}.legend-book{font-size:9pt}body{font-size:9.6pt;line-height:1.32;max-width:none;padding:0}h1{font-size:17pt}h2{font-size:13pt;break-after:avoid;margin:5mm 0 2mm}h3{font-size:11pt;break-after:avoid;break-inside:avoid}h3 label{display:inline}.legend-book .chapter{break-before:page}"
        + ".step{padding:1.6mm 0 0;margin:4mm 0;border:0;border-top:1.4pt solid #1d1b16;border-radius:0}h2+.step{border-top:0;padding-top:0;margin-top:0}.caution{background:none;border:1px solid #1d1b16;border-left-width:6px}.caution:has(+.doings){break-after:avoid}.cautions dt,.doings li:first-child{break-after:avoid}table+p{break-before:avoid}figure,tr,.gate,.caution,li{break-inside:avoid}thead{display:table-header-group}.facts{break-after:avoid;break-inside:avoid}.short,#step-keep-files{break-inside:avoid}.gate{break-before:avoid}tbody tr:nth-child(-n+2){break-after:avoid}tbody tr:nth-last-child(-n+3){break-before:avoid}caption,.list-head,thead{break-after:avoid;break-inside:avoid}"
        + "figure img,figure svg{max-height:108mm;width:auto;max-width:100%}.small{width:34mm}.middle{width:56mm}.half{width:calc(50% - 2.4mm)}.whole,table{width:calc(100% - .6mm)}code{white-space:nowrap}li,p{break-inside:avoid}.large{width:112mm}.pictures{gap:4mm;margin:2mm 0}a{color:inherit;text-decoration:none}.half svg:not(.dots){max-height:84mm}.tall svg{max-height:210mm}.legend-book .whole{width:104mm}input[type=checkbox]{width:4mm;height:4mm}th,td{padding:.6mm 1mm}table,.tools{font-size:8.4pt}.tools{columns:3}}";

    /// <summary>Ticks stay when the page is closed; where a browser keeps nothing they are lost, and nothing else.</summary>
    public const string Script =
        "(function(){var place='lampblack '+document.title;var kept={};try{kept=JSON.parse(localStorage.getItem(place)||'{}');}catch(e){kept={};}"
        + "document.querySelectorAll('input[data-tick]').forEach(function(box){var name=box.getAttribute('data-tick');box.checked=kept[name]===1;"
        + "box.addEventListener('change',function(){if(box.checked){kept[name]=1;}else{delete kept[name];}try{localStorage.setItem(place,JSON.stringify(kept));}catch(e){return;}});});})();";

    /// <summary>The style, with what stands at the head of every printed page.</summary>
    /// <param name="runningHead">Those words.</param>
    public static string Of(string runningHead) => "@page{size:auto;margin:16mm 12mm 15mm;@top-left{content:\"" + Quoted(runningHead) + "\";font:8pt sans-serif}@bottom-right{content:\"page \" counter(page) \" of \" counter(pages);font:8pt sans-serif}}" + Style;

    /// <summary>A text within quotes of a style sheet within a page: every sign that means something to either is written as its number.</summary>
    private static string Quoted(string words) => string.Concat(Formats.PrintableText.Clean(words).EnumerateRunes().Select(rune =>
        rune.Value is '"' or '\\' or '<' or '>' or '&' or '{' or '}' or < 32 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"\\{rune.Value:x6}") : rune.ToString()));
}
