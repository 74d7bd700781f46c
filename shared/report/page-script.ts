import { carriedIds } from './carried.ts';

/**
 * The page's only script that runs by itself: it shows the button, and starts
 * the carried program when a reader presses it.
 */
export const pageScript = `(()=>{
const again=document.getElementById('again');
const text=(id)=>document.getElementById(id).textContent;
again.querySelector('.no-script').remove();
const buttons=document.createElement('p');
buttons.className='buttons';
const button=document.createElement('button');
button.type='button';
button.textContent='Compute it again here';
button.addEventListener('click',()=>{
button.disabled=true;
const script=document.createElement('script');
script.src=URL.createObjectURL(new Blob([text('${carriedIds.check}')],{type:'text/javascript'}));
script.addEventListener('error',()=>{buttons.append(' This browser does not run the carried program.')});
script.addEventListener('load',()=>button.remove());
document.head.append(script);
});
buttons.append(button);
again.append(buttons);
})();`;
